-- An object that is sent again is taken out of the requests that asked for it before; without this each is looked for among all of them.
CREATE INDEX commitment_object_of ON commitment_object (sop_instance);
