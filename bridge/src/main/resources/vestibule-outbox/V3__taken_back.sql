-- What was filed and decided otherwise since, so that nothing wrong is ever forgotten in the archive.

-- What a rejection note repeats of an object, an encoded data set in base 64.
ALTER TABLE dicom_object ADD COLUMN heading TEXT;
-- 1: a rejection note.
ALTER TABLE dicom_object ADD COLUMN takes_back INTEGER NOT NULL DEFAULT 0;

-- An object that the archive has, or may have, and that no decision stands behind any more.
CREATE TABLE withdrawal (
  sop_instance TEXT PRIMARY KEY REFERENCES dicom_object (sop_instance),
  photo        TEXT NOT NULL REFERENCES photo (hash),
  reason       TEXT NOT NULL,
  since        BIGINT NOT NULL,
  note         TEXT,                    -- the note that names it, once that is made
  settled_at   BIGINT                   -- when a person said that it was taken back there by hand
);
CREATE INDEX withdrawal_of_photo ON withdrawal (photo);
CREATE INDEX withdrawal_open ON withdrawal (settled_at);
