-- In which study an object lies and whose it says that is, so that no study is used for two patients. Of objects made before this was
-- kept it is not known.
ALTER TABLE dicom_object ADD COLUMN study TEXT;
ALTER TABLE dicom_object ADD COLUMN patient TEXT;
ALTER TABLE dicom_object ADD COLUMN issuer TEXT;
CREATE INDEX object_of_study ON dicom_object (study);

-- 1: sending it was begun once, so that nothing else may ever go out under its identifier. Where that was not kept, everything of a
-- photograph counts as begun of which anything was.
ALTER TABLE dicom_object ADD COLUMN begun INTEGER NOT NULL DEFAULT 0;
UPDATE dicom_object SET begun = 1
WHERE state <> 'made' OR photo IN (SELECT photo FROM transition WHERE cause = 'sending began');

-- How many of the words that people said of a photograph its decision takes account of. What was decided before this was kept takes account
-- of all of them, unless it was still to be decided again, or doubted.
ALTER TABLE photo ADD COLUMN heard INTEGER NOT NULL DEFAULT 0;
UPDATE photo SET heard = (SELECT COUNT(*) FROM statement s WHERE s.photo = photo.hash)
WHERE decision IS NOT NULL AND undecided = 0 AND (reason IS NULL OR delivery = 1);
