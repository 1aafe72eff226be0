-- Memory cards lie in one reader one after another, at the same path. Which of them brought what, counted from 0: a patient card that was
-- photographed onto one of them says nothing of what is on the next. What was taken in before this was kept counts as of one.
ALTER TABLE source ADD COLUMN medium INTEGER NOT NULL DEFAULT 0;
ALTER TABLE photo ADD COLUMN medium INTEGER NOT NULL DEFAULT 0;
ALTER TABLE witness ADD COLUMN medium INTEGER NOT NULL DEFAULT 0;
CREATE INDEX photo_named ON photo (source, name);
CREATE INDEX witness_named ON witness (source, name);
-- The same name may come with the same time on two of them.
DROP INDEX witness_file;
CREATE UNIQUE INDEX witness_file ON witness (source, medium, name, file_time) WHERE photo IS NULL;
