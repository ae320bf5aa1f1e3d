-- What a closed study's marks rest on stays with it, and a span of the journal is found by its times.

ALTER TABLE study ADD COLUMN u_instrument_um REAL;

CREATE INDEX change_by_time ON change (at);
CREATE INDEX change_brought ON change (seq) WHERE kind = 'journal.brought';
