-- In which study an object lies and whose it says that is, so that no study is used for two patients. Of objects made before this was
-- kept it is not known.
ALTER TABLE dicom_object ADD COLUMN study TEXT;
ALTER TABLE dicom_object ADD COLUMN patient TEXT;
ALTER TABLE dicom_object ADD COLUMN issuer TEXT;
CREATE INDEX object_of_study ON dicom_object (study);
