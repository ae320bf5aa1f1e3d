-- Classes, practice in measuring, permits, what people have shown, and the lathe's queue. Lists are JSON text.

CREATE TABLE reference_part (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  place_words TEXT NOT NULL,
  reference_nm INTEGER NOT NULL,
  reference_unit TEXT NOT NULL CHECK (reference_unit IN ('mm', 'in')),
  reference_resolution_nm INTEGER NOT NULL,
  reference_text TEXT NOT NULL,
  expanded_uncertainty_nm INTEGER NOT NULL,
  source TEXT NOT NULL,
  active INTEGER NOT NULL CHECK (active IN (0, 1))
) STRICT;

CREATE TABLE study (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  reference_part_ids TEXT NOT NULL,
  person_ids TEXT NOT NULL,
  instrument_ids TEXT NOT NULL,
  repeats INTEGER NOT NULL,
  seed INTEGER NOT NULL,
  tolerance_nm INTEGER,
  tolerance_unit TEXT CHECK (tolerance_unit IN ('mm', 'in')),
  tolerance_resolution_nm INTEGER,
  tolerance_text TEXT,
  closed INTEGER NOT NULL CHECK (closed IN (0, 1)),
  made_by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  made_at TEXT NOT NULL,
  closed_at TEXT
) STRICT;

CREATE TABLE study_reading (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  study_id TEXT NOT NULL REFERENCES study (id) DEFERRABLE INITIALLY DEFERRED,
  person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  reference_part_id TEXT NOT NULL REFERENCES reference_part (id) DEFERRABLE INITIALLY DEFERRED,
  instrument_id TEXT NOT NULL REFERENCES instrument (id) DEFERRABLE INITIALLY DEFERRED,
  repeat INTEGER NOT NULL,
  value_nm INTEGER NOT NULL,
  value_unit TEXT NOT NULL CHECK (value_unit IN ('mm', 'in')),
  value_resolution_nm INTEGER NOT NULL,
  value_text TEXT NOT NULL,
  at TEXT NOT NULL,
  withdrawn_by_person_id TEXT REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  withdrawn_at TEXT
) STRICT;

CREATE TABLE safety_point (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  position INTEGER NOT NULL,
  question TEXT NOT NULL,
  choices TEXT NOT NULL,
  right_choice INTEGER NOT NULL,
  reason TEXT NOT NULL,
  active INTEGER NOT NULL CHECK (active IN (0, 1)),
  asked_since TEXT NOT NULL
) STRICT;

CREATE TABLE safety_answer (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  safety_point_id TEXT NOT NULL REFERENCES safety_point (id) DEFERRABLE INITIALLY DEFERRED,
  choice INTEGER NOT NULL,
  was_right INTEGER NOT NULL CHECK (was_right IN (0, 1)),
  at TEXT NOT NULL
) STRICT;

CREATE TABLE permit_rule (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  rule_version INTEGER NOT NULL,
  rule_needs_safety_points INTEGER NOT NULL CHECK (rule_needs_safety_points IN (0, 1)),
  rule_needs_measuring INTEGER NOT NULL CHECK (rule_needs_measuring IN (0, 1)),
  rule_share_within REAL NOT NULL,
  rule_sd_at_most_nm INTEGER,
  rule_supervised_cuts INTEGER NOT NULL,
  rule_lapses_after_days INTEGER NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE supervised_cut (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  job_id TEXT REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  note TEXT NOT NULL,
  signed_by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE permit (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  given_by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL,
  lapses_on TEXT NOT NULL,
  reason TEXT NOT NULL,
  withdrawn_by_person_id TEXT REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  withdrawn_at TEXT,
  withdrawn_why TEXT NOT NULL
) STRICT;

CREATE TABLE school_class (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  term TEXT NOT NULL,
  starts_on TEXT,
  ends_on TEXT,
  archived INTEGER NOT NULL CHECK (archived IN (0, 1))
) STRICT;

CREATE TABLE membership (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  class_id TEXT NOT NULL REFERENCES school_class (id) DEFERRABLE INITIALLY DEFERRED,
  person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  since TEXT NOT NULL,
  until TEXT
) STRICT;

CREATE TABLE competence (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  words TEXT NOT NULL,
  active INTEGER NOT NULL CHECK (active IN (0, 1))
) STRICT;

CREATE TABLE evidence (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  competence_id TEXT NOT NULL REFERENCES competence (id) DEFERRABLE INITIALLY DEFERRED,
  person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  level TEXT NOT NULL,
  job_id TEXT REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  study_id TEXT REFERENCES study (id) DEFERRABLE INITIALLY DEFERRED,
  note TEXT NOT NULL,
  signed_by_person_id TEXT REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL,
  withdrawn_by_person_id TEXT REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  withdrawn_at TEXT
) STRICT;

CREATE TABLE queue_entry (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  lathe_id TEXT NOT NULL REFERENCES lathe (id) DEFERRABLE INITIALLY DEFERRED,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  joined_at TEXT NOT NULL,
  left_at TEXT,
  left_why TEXT NOT NULL
) STRICT;

CREATE INDEX study_reading_study ON study_reading (study_id);
CREATE UNIQUE INDEX study_reading_once ON study_reading (study_id, person_id, reference_part_id, instrument_id, repeat)
  WHERE withdrawn_at IS NULL;
CREATE INDEX safety_answer_person ON safety_answer (person_id);
CREATE UNIQUE INDEX permit_rule_version ON permit_rule (rule_version);
CREATE INDEX evidence_person ON evidence (person_id);
CREATE UNIQUE INDEX membership_once ON membership (class_id, person_id) WHERE until IS NULL;
CREATE UNIQUE INDEX queue_entry_once ON queue_entry (lathe_id, job_id) WHERE left_at IS NULL;

CREATE TRIGGER reference_part_stays BEFORE DELETE ON reference_part BEGIN
  SELECT RAISE(ABORT, 'reference_part rows are never deleted');
END;
CREATE TRIGGER study_stays BEFORE DELETE ON study BEGIN
  SELECT RAISE(ABORT, 'study rows are never deleted');
END;
CREATE TRIGGER study_reading_stays BEFORE DELETE ON study_reading BEGIN
  SELECT RAISE(ABORT, 'study_reading rows are never deleted');
END;
CREATE TRIGGER safety_point_stays BEFORE DELETE ON safety_point BEGIN
  SELECT RAISE(ABORT, 'safety_point rows are never deleted');
END;
CREATE TRIGGER safety_answer_stays BEFORE DELETE ON safety_answer BEGIN
  SELECT RAISE(ABORT, 'safety_answer rows are never deleted');
END;
CREATE TRIGGER permit_rule_stays BEFORE DELETE ON permit_rule BEGIN
  SELECT RAISE(ABORT, 'permit_rule rows are never deleted');
END;
CREATE TRIGGER supervised_cut_stays BEFORE DELETE ON supervised_cut BEGIN
  SELECT RAISE(ABORT, 'supervised_cut rows are never deleted');
END;
CREATE TRIGGER permit_stays BEFORE DELETE ON permit BEGIN
  SELECT RAISE(ABORT, 'permit rows are never deleted');
END;
CREATE TRIGGER school_class_stays BEFORE DELETE ON school_class BEGIN
  SELECT RAISE(ABORT, 'school_class rows are never deleted');
END;
CREATE TRIGGER membership_stays BEFORE DELETE ON membership BEGIN
  SELECT RAISE(ABORT, 'membership rows are never deleted');
END;
CREATE TRIGGER competence_stays BEFORE DELETE ON competence BEGIN
  SELECT RAISE(ABORT, 'competence rows are never deleted');
END;
CREATE TRIGGER evidence_stays BEFORE DELETE ON evidence BEGIN
  SELECT RAISE(ABORT, 'evidence rows are never deleted');
END;
CREATE TRIGGER queue_entry_stays BEFORE DELETE ON queue_entry BEGIN
  SELECT RAISE(ABORT, 'queue_entry rows are never deleted');
END;
CREATE TRIGGER safety_answer_is_final BEFORE UPDATE ON safety_answer BEGIN
  SELECT RAISE(ABORT, 'safety_answer rows are never changed');
END;
CREATE TRIGGER permit_rule_is_final BEFORE UPDATE ON permit_rule BEGIN
  SELECT RAISE(ABORT, 'permit_rule rows are never changed');
END;
CREATE TRIGGER supervised_cut_is_final BEFORE UPDATE ON supervised_cut BEGIN
  SELECT RAISE(ABORT, 'supervised_cut rows are never changed');
END;
CREATE TRIGGER study_reading_is_final BEFORE UPDATE ON study_reading
WHEN NEW.id IS NOT OLD.id OR
     NEW.study_id IS NOT OLD.study_id OR
     NEW.person_id IS NOT OLD.person_id OR
     NEW.reference_part_id IS NOT OLD.reference_part_id OR
     NEW.instrument_id IS NOT OLD.instrument_id OR
     NEW.repeat IS NOT OLD.repeat OR
     NEW.value_nm IS NOT OLD.value_nm OR
     NEW.value_unit IS NOT OLD.value_unit OR
     NEW.value_resolution_nm IS NOT OLD.value_resolution_nm OR
     NEW.value_text IS NOT OLD.value_text OR
     NEW.at IS NOT OLD.at
BEGIN
  SELECT RAISE(ABORT, 'study_reading rows only ever end');
END;
CREATE TRIGGER permit_is_final BEFORE UPDATE ON permit
WHEN NEW.id IS NOT OLD.id OR
     NEW.person_id IS NOT OLD.person_id OR
     NEW.given_by_person_id IS NOT OLD.given_by_person_id OR
     NEW.at IS NOT OLD.at OR
     NEW.lapses_on IS NOT OLD.lapses_on OR
     NEW.reason IS NOT OLD.reason
BEGIN
  SELECT RAISE(ABORT, 'permit rows only ever end');
END;
CREATE TRIGGER evidence_is_final BEFORE UPDATE ON evidence
WHEN NEW.id IS NOT OLD.id OR
     NEW.competence_id IS NOT OLD.competence_id OR
     NEW.person_id IS NOT OLD.person_id OR
     NEW.level IS NOT OLD.level OR
     NEW.job_id IS NOT OLD.job_id OR
     NEW.study_id IS NOT OLD.study_id OR
     NEW.note IS NOT OLD.note OR
     NEW.signed_by_person_id IS NOT OLD.signed_by_person_id OR
     NEW.at IS NOT OLD.at
BEGIN
  SELECT RAISE(ABORT, 'evidence rows only ever end');
END;
CREATE TRIGGER queue_entry_is_final BEFORE UPDATE ON queue_entry
WHEN NEW.id IS NOT OLD.id OR
     NEW.lathe_id IS NOT OLD.lathe_id OR
     NEW.job_id IS NOT OLD.job_id OR
     NEW.person_id IS NOT OLD.person_id OR
     NEW.joined_at IS NOT OLD.joined_at
BEGIN
  SELECT RAISE(ABORT, 'queue_entry rows only ever end');
END;
CREATE TRIGGER membership_is_final BEFORE UPDATE ON membership
WHEN NEW.id IS NOT OLD.id OR
     NEW.class_id IS NOT OLD.class_id OR
     NEW.person_id IS NOT OLD.person_id OR
     NEW.since IS NOT OLD.since
BEGIN
  SELECT RAISE(ABORT, 'membership rows only ever end');
END;
