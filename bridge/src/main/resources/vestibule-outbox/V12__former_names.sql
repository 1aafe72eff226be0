-- Names that photographs lay under in a source and that are gone from there, beside the one by which each was taken in. What a name said of
-- whose a photograph is, or of its view, is not unsaid by the file's going. Names that were gone before this was kept are not known.
CREATE TABLE former_name (
  photo   TEXT NOT NULL REFERENCES photo (hash),
  source  TEXT NOT NULL REFERENCES source (name),
  name    TEXT NOT NULL,
  gone_at BIGINT NOT NULL,
  PRIMARY KEY (photo, source, name)
);
