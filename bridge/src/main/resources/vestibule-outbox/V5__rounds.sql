-- A round of decisions about the photographs of a source that was begun and is not through yet. Until it is, nothing of them is sent.
CREATE TABLE deciding_round (
  source     TEXT NOT NULL REFERENCES source (name),
  place      TEXT NOT NULL,             -- which folder of originals holds their copies
  holder     TEXT NOT NULL,             -- who is at it
  held_until BIGINT NOT NULL,           -- then another may take it up
  earliest   BIGINT NOT NULL,           -- the times of the first and last file that were to be decided
  latest     BIGINT NOT NULL,
  PRIMARY KEY (source, place)
);

-- Before anything is sent it is asked whether something near it is still to be decided.
CREATE INDEX photo_to_decide ON photo (source, place, file_time) WHERE undecided = 1 AND kept = 1;

-- What is to be sent, those taken in first come first.
CREATE INDEX photo_next ON photo (place, taken_in, hash) WHERE to_send = 1;

-- Why a node cannot go on, one sentence a line; what a person at another computer would have to look up in its log.
ALTER TABLE node ADD COLUMN trouble TEXT;
