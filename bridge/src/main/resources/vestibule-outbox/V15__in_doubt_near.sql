-- Whether anything near a photograph waits for a person is asked of each whose copy may go; nearly nothing waits.
CREATE INDEX photo_in_doubt ON photo (source, place, file_time) WHERE state = 'needs-attention' AND kept = 1;
CREATE INDEX photo_in_doubt_captured ON photo (source, place, captured) WHERE state = 'needs-attention' AND kept = 1;
