-- Why a node cannot go on, one sentence a line; what a person at another computer would have to look up in its log.
ALTER TABLE node ADD COLUMN trouble TEXT;
