-- A doubt about something filed stands behind what its delivery asks: once that is answered, the photograph is decided again.
ALTER TABLE photo ADD COLUMN doubt_waits INTEGER NOT NULL DEFAULT 0;
