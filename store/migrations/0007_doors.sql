-- What people come in with: Argon2id strings, empty once taken away. An entry of the journal tells each by its SHA-256.

CREATE TABLE secret (
  place INTEGER PRIMARY KEY,
  person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  kind TEXT NOT NULL CHECK (kind IN ('pin', 'password')),
  hash TEXT NOT NULL,
  set_at TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  UNIQUE (person_id, kind)
) STRICT;
