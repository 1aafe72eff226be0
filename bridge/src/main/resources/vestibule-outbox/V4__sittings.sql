-- How each sitting stood against its set when it was last decided: what is missing while the patient still sits there.
CREATE TABLE sitting (
  photo    TEXT PRIMARY KEY REFERENCES photo (hash), -- its first one
  source   TEXT NOT NULL REFERENCES source (name),
  taken_in BIGINT NOT NULL,                          -- when the last of it was
  state    TEXT NOT NULL                             -- as JSON
);
CREATE INDEX sitting_taken_in ON sitting (taken_in);
