-- What lies or lay in a source beside the photographs that it brought first, and bears on whose those are: files that could not be taken
-- in, and photographs that another source brought. Any of them may be a patient card. Kept when the file is gone, for the photographs
-- after it stay where they were taken.
CREATE TABLE witness (
  source    TEXT NOT NULL REFERENCES source (name),
  place     TEXT NOT NULL,              -- which folder of originals its photographs go to
  name      TEXT NOT NULL,
  file_time BIGINT NOT NULL,
  photo     TEXT REFERENCES photo (hash), -- null: it was not taken in
  says      TEXT,                       -- whose the photograph is by the cards of this source, as JSON; null: nothing
  settled   INTEGER NOT NULL DEFAULT 0, -- 1: it was taken in since, and is no witness any more
  undecided INTEGER NOT NULL            -- 1: what is near it is to be decided, or decided again
);
CREATE UNIQUE INDEX witness_photo ON witness (source, photo);
CREATE UNIQUE INDEX witness_file ON witness (source, name, file_time) WHERE photo IS NULL;
CREATE INDEX witness_near ON witness (source, file_time);
CREATE INDEX witness_of_photo ON witness (photo);
CREATE INDEX witness_to_decide ON witness (source, place, file_time) WHERE undecided = 1;

INSERT INTO witness (source, place, name, file_time, undecided)
  SELECT sighting.source, source.place, sighting.name, sighting.file_time, 1 FROM sighting JOIN source ON source.name = sighting.source
  WHERE photo IS NULL AND (sentence LIKE 'it is no whole JPEG%' OR sentence LIKE 'it is called a JPEG%');
INSERT INTO witness (source, place, name, file_time, photo, undecided)
  SELECT s.source, source.place, MIN(s.name), MIN(s.file_time), s.photo, 1 FROM sighting s
  JOIN source ON source.name = s.source JOIN photo ON photo.hash = s.photo
  WHERE photo.source <> s.source GROUP BY s.source, source.place, s.photo;
