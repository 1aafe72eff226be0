-- Two nodes may have a card each at the same path. What lies on the one says nothing of the other, so they are two sources.
ALTER TABLE source ADD COLUMN folder TEXT;  -- where it lies on its node
ALTER TABLE source ADD COLUMN node TEXT;    -- whose it is: empty where the outbox is of one home, null where nobody looked since this version
UPDATE source SET folder = name;
CREATE UNIQUE INDEX source_of_node ON source (node, folder);
