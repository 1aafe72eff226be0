-- The durable list of what must reach the archive. Times are milliseconds since 1970 UTC; flags are 0 or 1.
-- The same text serves SQLite and PostgreSQL; what differs stands between braces and comes from Dialect.

-- A process that serves this outbox; its claims last as long as it is alive.
CREATE TABLE node (
  name        TEXT PRIMARY KEY,
  alive_until BIGINT NOT NULL
);

-- A card or folder, named by its path.
CREATE TABLE source (
  name       TEXT PRIMARY KEY,
  place      TEXT NOT NULL,             -- whose disks it was seen from
  first_seen BIGINT NOT NULL,
  looked_at  BIGINT,                    -- the last look that reached everything
  trouble    TEXT,                      -- why the last look did not
  due        BIGINT NOT NULL DEFAULT 0, -- when it may be decided
  attempts   INTEGER NOT NULL DEFAULT 0
);

-- A photograph: one JPEG by the hash of its bytes.
CREATE TABLE photo (
  hash       TEXT PRIMARY KEY,
  bytes      BIGINT NOT NULL,
  place      TEXT NOT NULL,             -- which folder of originals holds our copy
  source     TEXT NOT NULL REFERENCES source (name),
  name       TEXT NOT NULL,             -- where it was seen first
  file_time  BIGINT NOT NULL,
  taken_in   BIGINT NOT NULL,
  state      TEXT NOT NULL,
  undecided  INTEGER NOT NULL,          -- 1: is to be decided, or decided again
  decision   TEXT,
  revision   INTEGER NOT NULL,          -- counts decisions
  reason     TEXT,                      -- with message: a person must decide
  message    TEXT,
  delivery   INTEGER NOT NULL DEFAULT 0, -- 1: the reason came up while delivering, not while deciding
  proposal   TEXT,
  aside      TEXT,                      -- why it is not to be filed
  note       TEXT,                      -- what the archive said that a person should see
  to_send    INTEGER NOT NULL,          -- 1: an object is to be made or sent, or asked for
  due        BIGINT NOT NULL,           -- not to be tried before
  attempts   INTEGER NOT NULL,
  claimed_by TEXT,
  kept       INTEGER NOT NULL,          -- 1: our copy of the original is there
  settled_at BIGINT                     -- when it became committed
);
CREATE INDEX photo_to_send ON photo (to_send, due);
CREATE INDEX photo_undecided ON photo (undecided, source);
CREATE INDEX photo_of_source ON photo (source, file_time);
CREATE INDEX photo_state ON photo (state);
CREATE INDEX photo_bytes ON photo (bytes);

-- What lies in a source now, by the last look.
CREATE TABLE sighting (
  source    TEXT NOT NULL REFERENCES source (name),
  name      TEXT NOT NULL,
  bytes     BIGINT NOT NULL,
  file_time BIGINT NOT NULL,
  photo     TEXT REFERENCES photo (hash),
  sentence  TEXT,                       -- why it is not taken in
  PRIMARY KEY (source, name)
);
CREATE INDEX sighting_of_photo ON sighting (photo);

-- A person's word about a photograph.
CREATE TABLE statement (
  id      ${serial},
  photo   TEXT NOT NULL REFERENCES photo (hash),
  about   TEXT NOT NULL,
  answer  TEXT NOT NULL,
  said_by TEXT,
  said_at BIGINT NOT NULL
);
CREATE INDEX statement_of_photo ON statement (photo);

-- A DICOM object made of a photograph.
CREATE TABLE dicom_object (
  sop_instance TEXT PRIMARY KEY,
  sop_class    TEXT NOT NULL,
  photo        TEXT NOT NULL REFERENCES photo (hash),
  revision     INTEGER NOT NULL,        -- of the decision it was made of
  place        INTEGER NOT NULL,        -- its place among the objects of the photograph
  digest       TEXT NOT NULL,           -- SHA-256 of its encoded data set
  bytes        BIGINT NOT NULL,
  state        TEXT NOT NULL,
  status       INTEGER,                 -- what the archive answered last to C-STORE
  comment      TEXT,
  proof        TEXT,                    -- what commitment rests on
  asked        TEXT,                    -- the commitment transaction that is open for it
  asks         INTEGER NOT NULL,        -- how often commitment was asked for
  due          BIGINT NOT NULL,         -- commitment is not to be asked for before
  changed_at   BIGINT NOT NULL
);
CREATE INDEX object_of_photo ON dicom_object (photo);
CREATE INDEX object_to_commit ON dicom_object (state, asked, due);

-- A request for storage commitment.
CREATE TABLE commitment (
  transaction_uid TEXT PRIMARY KEY,
  archive         TEXT NOT NULL,        -- AE title asked
  state           TEXT NOT NULL,        -- open, answered, expired, refused
  asked_at        BIGINT NOT NULL,
  deadline        BIGINT NOT NULL
);
CREATE INDEX commitment_open ON commitment (state, deadline);

CREATE TABLE commitment_object (
  transaction_uid TEXT NOT NULL REFERENCES commitment (transaction_uid),
  sop_instance    TEXT NOT NULL REFERENCES dicom_object (sop_instance),
  outcome         TEXT,
  PRIMARY KEY (transaction_uid, sop_instance)
);

-- Everything that ever happened to a photograph.
CREATE TABLE transition (
  id     ${serial},
  photo  TEXT NOT NULL REFERENCES photo (hash),
  at     BIGINT NOT NULL,
  before TEXT,
  after  TEXT NOT NULL,
  cause  TEXT NOT NULL
);
CREATE INDEX transition_of_photo ON transition (photo);
