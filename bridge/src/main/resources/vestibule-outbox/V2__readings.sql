-- What was read in the bytes of a photograph before it is decided. Photographs never change, so it is read once; all of it can be read
-- again at any time, and rows of a form that is not known are.
CREATE TABLE reading (
  photo TEXT PRIMARY KEY REFERENCES photo (hash),
  text  TEXT NOT NULL
);

-- 1: a person said that the object may be sent again even if the archive cannot be asked whether it has it.
ALTER TABLE dicom_object ADD COLUMN resend INTEGER NOT NULL DEFAULT 0;
