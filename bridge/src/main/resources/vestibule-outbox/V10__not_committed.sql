-- Why a photograph is not committed yet. It passes; what the archive changed when it stored it (note) does not.
ALTER TABLE photo ADD COLUMN not_committed TEXT;
UPDATE photo SET not_committed = SUBSTR(note, 20), note = NULL WHERE note LIKE 'not committed yet: %';
