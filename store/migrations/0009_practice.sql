-- Practice at the simulated bench: what the class is set, runs, and what was done in those that have ended.

CREATE TABLE practice_set (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  seed INTEGER NOT NULL,
  difficulty INTEGER NOT NULL,
  faults TEXT,
  open INTEGER NOT NULL CHECK (open IN (0, 1)),
  made_by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  made_at TEXT NOT NULL
) STRICT;

CREATE TABLE practice_run (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  set_id TEXT REFERENCES practice_set (id) DEFERRABLE INITIALLY DEFERRED,
  seed INTEGER NOT NULL,
  difficulty INTEGER NOT NULL,
  faults TEXT,
  begun_at TEXT NOT NULL,
  ended_at TEXT,
  points REAL,
  safe INTEGER CHECK (safe IN (0, 1)),
  acts INTEGER NOT NULL,
  view_json TEXT NOT NULL
) STRICT;

CREATE TABLE practice_record (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE REFERENCES practice_run (id) DEFERRABLE INITIALLY DEFERRED,
  done_json TEXT NOT NULL,
  at TEXT NOT NULL
) STRICT;

CREATE INDEX practice_run_person ON practice_run (person_id);

CREATE TRIGGER practice_set_stays BEFORE DELETE ON practice_set BEGIN
  SELECT RAISE(ABORT, 'practice_set rows are never deleted');
END;
CREATE TRIGGER practice_run_stays BEFORE DELETE ON practice_run BEGIN
  SELECT RAISE(ABORT, 'practice_run rows are never deleted');
END;
CREATE TRIGGER practice_record_stays BEFORE DELETE ON practice_record BEGIN
  SELECT RAISE(ABORT, 'practice_record rows are never deleted');
END;
CREATE TRIGGER practice_record_is_final BEFORE UPDATE ON practice_record BEGIN
  SELECT RAISE(ABORT, 'practice_record rows are never changed');
END;
CREATE TRIGGER practice_run_is_final BEFORE UPDATE ON practice_run
WHEN OLD.ended_at IS NOT NULL OR
     NEW.id IS NOT OLD.id OR
     NEW.person_id IS NOT OLD.person_id OR
     NEW.set_id IS NOT OLD.set_id OR
     NEW.seed IS NOT OLD.seed OR
     NEW.difficulty IS NOT OLD.difficulty OR
     NEW.faults IS NOT OLD.faults OR
     NEW.begun_at IS NOT OLD.begun_at
BEGIN
  SELECT RAISE(ABORT, 'practice_run rows only ever end');
END;

ALTER TABLE permit_rule ADD COLUMN rule_practice_points INTEGER;

DROP TRIGGER evidence_is_final;
ALTER TABLE evidence ADD COLUMN practice_run_id TEXT REFERENCES practice_run (id) DEFERRABLE INITIALLY DEFERRED;
CREATE TRIGGER evidence_is_final BEFORE UPDATE ON evidence
WHEN NEW.id IS NOT OLD.id OR
     NEW.competence_id IS NOT OLD.competence_id OR
     NEW.person_id IS NOT OLD.person_id OR
     NEW.level IS NOT OLD.level OR
     NEW.job_id IS NOT OLD.job_id OR
     NEW.study_id IS NOT OLD.study_id OR
     NEW.practice_run_id IS NOT OLD.practice_run_id OR
     NEW.note IS NOT OLD.note OR
     NEW.signed_by_person_id IS NOT OLD.signed_by_person_id OR
     NEW.at IS NOT OLD.at
BEGIN
  SELECT RAISE(ABORT, 'evidence rows only ever end');
END;
