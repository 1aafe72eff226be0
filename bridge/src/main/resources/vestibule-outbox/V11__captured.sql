-- When a photograph was taken, by its camera's clock put right. The time of its file may be that of its transfer, so what was taken together
-- is near in time by either. Where it is not known, and of what was taken in before it was kept, the time of the file stands; files that
-- still lie in their source are read anew.
ALTER TABLE photo ADD COLUMN captured BIGINT NOT NULL DEFAULT 0;
UPDATE photo SET captured = file_time;
CREATE INDEX photo_captured ON photo (source, captured);
CREATE INDEX photo_to_decide_captured ON photo (source, place, captured) WHERE undecided = 1 AND kept = 1;

ALTER TABLE witness ADD COLUMN captured BIGINT NOT NULL DEFAULT 0;
UPDATE witness SET captured = file_time;
CREATE INDEX witness_captured ON witness (source, captured);
CREATE INDEX witness_to_decide_captured ON witness (source, place, captured) WHERE undecided = 1;

-- The times at which the first and last of what was to be decided were taken.
ALTER TABLE deciding_round ADD COLUMN first_captured BIGINT NOT NULL DEFAULT 0;
ALTER TABLE deciding_round ADD COLUMN last_captured BIGINT NOT NULL DEFAULT 0;
UPDATE deciding_round SET first_captured = earliest, last_captured = latest;
