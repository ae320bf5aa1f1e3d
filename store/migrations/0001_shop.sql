-- A shop. Names are those of the API; lengths are whole nanometres; times are UTC text; ids are UUID text.
-- References are checked at the end of a transaction, so that a job can be brought in from elsewhere in any order.

CREATE TABLE settings (
  only INTEGER PRIMARY KEY CHECK (only = 1) DEFAULT 1,
  shop_name TEXT NOT NULL,
  confidence REAL NOT NULL,
  house_allowance_nm INTEGER,
  cut_margin_nm INTEGER NOT NULL,
  wear_mm_per_10000_km REAL,
  default_unit TEXT NOT NULL,
  paper TEXT NOT NULL,
  points INTEGER NOT NULL,
  demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  version INTEGER NOT NULL
) STRICT;

CREATE TABLE counter (
  name TEXT PRIMARY KEY,
  value INTEGER NOT NULL
) STRICT;

CREATE TABLE person (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  role TEXT NOT NULL,
  active INTEGER NOT NULL CHECK (active IN (0, 1)),
  created_at TEXT NOT NULL
) STRICT;

CREATE TABLE instrument (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  kind TEXT NOT NULL,
  serial TEXT NOT NULL,
  resolution_nm INTEGER NOT NULL,
  mpe_nm INTEGER NOT NULL,
  repeatability_nm INTEGER NOT NULL,
  default_unit TEXT NOT NULL,
  calibrated_on TEXT,
  calibration_due_on TEXT,
  active INTEGER NOT NULL CHECK (active IN (0, 1))
) STRICT;

CREATE TABLE lathe (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  dial_um_per_mark REAL NOT NULL,
  dial_sd_um REAL NOT NULL,
  mount_runout_um REAL NOT NULL,
  note TEXT NOT NULL,
  active INTEGER NOT NULL CHECK (active IN (0, 1))
) STRICT;

CREATE TABLE known_part (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  limits_nominal_value_nm INTEGER,
  limits_nominal_value_unit TEXT CHECK (limits_nominal_value_unit IN ('mm', 'in')),
  limits_nominal_value_resolution_nm INTEGER,
  limits_nominal_value_text TEXT,
  limits_nominal_source TEXT,
  limits_nominal_source_note TEXT,
  limits_machine_to_value_nm INTEGER,
  limits_machine_to_value_unit TEXT CHECK (limits_machine_to_value_unit IN ('mm', 'in')),
  limits_machine_to_value_resolution_nm INTEGER,
  limits_machine_to_value_text TEXT,
  limits_machine_to_source TEXT,
  limits_machine_to_source_note TEXT,
  limits_discard_value_nm INTEGER,
  limits_discard_value_unit TEXT CHECK (limits_discard_value_unit IN ('mm', 'in')),
  limits_discard_value_resolution_nm INTEGER,
  limits_discard_value_text TEXT,
  limits_discard_source TEXT,
  limits_discard_source_note TEXT,
  limits_variation_value_nm INTEGER,
  limits_variation_value_unit TEXT CHECK (limits_variation_value_unit IN ('mm', 'in')),
  limits_variation_value_resolution_nm INTEGER,
  limits_variation_value_text TEXT,
  limits_variation_source TEXT,
  limits_variation_source_note TEXT,
  limits_runout_value_nm INTEGER,
  limits_runout_value_unit TEXT CHECK (limits_runout_value_unit IN ('mm', 'in')),
  limits_runout_value_resolution_nm INTEGER,
  limits_runout_value_text TEXT,
  limits_runout_source TEXT,
  limits_runout_source_note TEXT,
  limits_scoring_value_nm INTEGER,
  limits_scoring_value_unit TEXT CHECK (limits_scoring_value_unit IN ('mm', 'in')),
  limits_scoring_value_resolution_nm INTEGER,
  limits_scoring_value_text TEXT,
  limits_scoring_source TEXT,
  limits_scoring_source_note TEXT,
  limits_finish_ra_value_nm INTEGER,
  limits_finish_ra_value_unit TEXT CHECK (limits_finish_ra_value_unit IN ('mm', 'in')),
  limits_finish_ra_value_resolution_nm INTEGER,
  limits_finish_ra_value_text TEXT,
  limits_finish_ra_source TEXT,
  limits_finish_ra_source_note TEXT,
  outer_diameter_nm INTEGER,
  outer_diameter_unit TEXT CHECK (outer_diameter_unit IN ('mm', 'in')),
  outer_diameter_resolution_nm INTEGER,
  outer_diameter_text TEXT,
  vented INTEGER NOT NULL CHECK (vented IN (0, 1)),
  last_met_at TEXT NOT NULL
) STRICT;

CREATE TABLE job (
  number INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  state TEXT NOT NULL CHECK (state IN ('open', 'sealed')),
  brought_by TEXT NOT NULL,
  vehicle TEXT NOT NULL,
  complaint TEXT NOT NULL,
  complaint_note TEXT NOT NULL,
  axle TEXT NOT NULL,
  odometer INTEGER,
  odometer_unit TEXT NOT NULL,
  worker_person_id TEXT REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  lathe_id TEXT REFERENCES lathe (id) DEFERRABLE INITIALLY DEFERRED,
  opened_by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  opened_at TEXT NOT NULL,
  changed_at TEXT NOT NULL,
  version INTEGER NOT NULL,
  sealed_by_person_id TEXT REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  sealed_at TEXT,
  seal_sha256 TEXT NOT NULL
) STRICT;

CREATE TABLE part (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  side TEXT NOT NULL,
  construction TEXT NOT NULL,
  vented INTEGER NOT NULL CHECK (vented IN (0, 1)),
  outer_diameter_nm INTEGER,
  outer_diameter_unit TEXT CHECK (outer_diameter_unit IN ('mm', 'in')),
  outer_diameter_resolution_nm INTEGER,
  outer_diameter_text TEXT,
  known_part_id TEXT REFERENCES known_part (id) DEFERRABLE INITIALLY DEFERRED,
  limits_nominal_value_nm INTEGER,
  limits_nominal_value_unit TEXT CHECK (limits_nominal_value_unit IN ('mm', 'in')),
  limits_nominal_value_resolution_nm INTEGER,
  limits_nominal_value_text TEXT,
  limits_nominal_source TEXT,
  limits_nominal_source_note TEXT,
  limits_machine_to_value_nm INTEGER,
  limits_machine_to_value_unit TEXT CHECK (limits_machine_to_value_unit IN ('mm', 'in')),
  limits_machine_to_value_resolution_nm INTEGER,
  limits_machine_to_value_text TEXT,
  limits_machine_to_source TEXT,
  limits_machine_to_source_note TEXT,
  limits_discard_value_nm INTEGER,
  limits_discard_value_unit TEXT CHECK (limits_discard_value_unit IN ('mm', 'in')),
  limits_discard_value_resolution_nm INTEGER,
  limits_discard_value_text TEXT,
  limits_discard_source TEXT,
  limits_discard_source_note TEXT,
  limits_variation_value_nm INTEGER,
  limits_variation_value_unit TEXT CHECK (limits_variation_value_unit IN ('mm', 'in')),
  limits_variation_value_resolution_nm INTEGER,
  limits_variation_value_text TEXT,
  limits_variation_source TEXT,
  limits_variation_source_note TEXT,
  limits_runout_value_nm INTEGER,
  limits_runout_value_unit TEXT CHECK (limits_runout_value_unit IN ('mm', 'in')),
  limits_runout_value_resolution_nm INTEGER,
  limits_runout_value_text TEXT,
  limits_runout_source TEXT,
  limits_runout_source_note TEXT,
  limits_scoring_value_nm INTEGER,
  limits_scoring_value_unit TEXT CHECK (limits_scoring_value_unit IN ('mm', 'in')),
  limits_scoring_value_resolution_nm INTEGER,
  limits_scoring_value_text TEXT,
  limits_scoring_source TEXT,
  limits_scoring_source_note TEXT,
  limits_finish_ra_value_nm INTEGER,
  limits_finish_ra_value_unit TEXT CHECK (limits_finish_ra_value_unit IN ('mm', 'in')),
  limits_finish_ra_value_resolution_nm INTEGER,
  limits_finish_ra_value_text TEXT,
  limits_finish_ra_source TEXT,
  limits_finish_ra_source_note TEXT,
  version INTEGER NOT NULL
) STRICT;

CREATE TABLE measuring_plan (
  place INTEGER PRIMARY KEY,
  part_id TEXT NOT NULL REFERENCES part (id) DEFERRABLE INITIALLY DEFERRED,
  stage TEXT NOT NULL,
  points INTEGER NOT NULL,
  turning TEXT NOT NULL,
  circles_from_edge_nm TEXT NOT NULL,
  runout_place TEXT NOT NULL,
  part_temperature_c REAL,
  thickness_instrument_id TEXT REFERENCES instrument (id) DEFERRABLE INITIALLY DEFERRED,
  runout_instrument_id TEXT REFERENCES instrument (id) DEFERRABLE INITIALLY DEFERRED,
  version INTEGER NOT NULL,
  UNIQUE (part_id, stage)
) STRICT;

CREATE TABLE zero_check (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  instrument_id TEXT NOT NULL REFERENCES instrument (id) DEFERRABLE INITIALLY DEFERRED,
  error_nm INTEGER NOT NULL,
  error_unit TEXT NOT NULL CHECK (error_unit IN ('mm', 'in')),
  error_resolution_nm INTEGER NOT NULL,
  error_text TEXT NOT NULL,
  job_id TEXT REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE reading (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  part_id TEXT NOT NULL REFERENCES part (id) DEFERRABLE INITIALLY DEFERRED,
  stage TEXT NOT NULL,
  quantity TEXT NOT NULL,
  circle INTEGER NOT NULL,
  point INTEGER NOT NULL,
  angle_deg REAL NOT NULL,
  value_nm INTEGER NOT NULL,
  value_unit TEXT NOT NULL CHECK (value_unit IN ('mm', 'in')),
  value_resolution_nm INTEGER NOT NULL,
  value_text TEXT NOT NULL,
  instrument_id TEXT REFERENCES instrument (id) DEFERRABLE INITIALLY DEFERRED,
  zero_check_id TEXT REFERENCES zero_check (id) DEFERRABLE INITIALLY DEFERRED,
  confirmed_doubts TEXT NOT NULL,
  supersedes_id TEXT REFERENCES reading (id) DEFERRABLE INITIALLY DEFERRED,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  taken_at TEXT NOT NULL,
  received_at TEXT NOT NULL,
  withdrawn_by_person_id TEXT REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  withdrawn_at TEXT
) STRICT;

CREATE TABLE finding (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  part_id TEXT NOT NULL REFERENCES part (id) DEFERRABLE INITIALLY DEFERRED,
  kind TEXT NOT NULL,
  judgement TEXT NOT NULL,
  note TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL,
  withdrawn_by_person_id TEXT REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  withdrawn_at TEXT
) STRICT;

CREATE TABLE decision (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  computed_action TEXT NOT NULL,
  computed_p REAL NOT NULL,
  computed_json TEXT NOT NULL,
  action TEXT NOT NULL,
  reason TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE cut (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  part_id TEXT NOT NULL REFERENCES part (id) DEFERRABLE INITIALLY DEFERRED,
  lathe_id TEXT REFERENCES lathe (id) DEFERRABLE INITIALLY DEFERRED,
  outboard_marks INTEGER NOT NULL,
  inboard_marks INTEGER NOT NULL,
  dial_um_per_mark REAL NOT NULL,
  note TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE amendment (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  text TEXT NOT NULL,
  subject_id TEXT,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE change (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  job_id TEXT REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  subject_id TEXT NOT NULL,
  detail_json TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE INDEX part_by_job ON part (job_id);
CREATE INDEX finding_by_job ON finding (job_id);
CREATE INDEX decision_by_job ON decision (job_id);
CREATE INDEX cut_by_job ON cut (job_id);
CREATE INDEX amendment_by_job ON amendment (job_id);
CREATE INDEX reading_by_job ON reading (job_id);
CREATE INDEX zero_check_by_job ON zero_check (job_id);
CREATE INDEX zero_check_by_instrument ON zero_check (instrument_id, at);
CREATE INDEX change_by_job ON change (job_id, seq);
CREATE INDEX job_by_state ON job (state, number);
CREATE INDEX job_by_worker ON job (worker_person_id);

-- What was recorded stays.
CREATE TRIGGER person_stays BEFORE DELETE ON person BEGIN
  SELECT RAISE(ABORT, 'person rows are never deleted');
END;
CREATE TRIGGER instrument_stays BEFORE DELETE ON instrument BEGIN
  SELECT RAISE(ABORT, 'instrument rows are never deleted');
END;
CREATE TRIGGER lathe_stays BEFORE DELETE ON lathe BEGIN
  SELECT RAISE(ABORT, 'lathe rows are never deleted');
END;
CREATE TRIGGER job_stays BEFORE DELETE ON job BEGIN
  SELECT RAISE(ABORT, 'job rows are never deleted');
END;
CREATE TRIGGER part_stays BEFORE DELETE ON part BEGIN
  SELECT RAISE(ABORT, 'part rows are never deleted');
END;
CREATE TRIGGER zero_check_stays BEFORE DELETE ON zero_check BEGIN
  SELECT RAISE(ABORT, 'zero_check rows are never deleted');
END;
CREATE TRIGGER reading_stays BEFORE DELETE ON reading BEGIN
  SELECT RAISE(ABORT, 'reading rows are never deleted');
END;
CREATE TRIGGER finding_stays BEFORE DELETE ON finding BEGIN
  SELECT RAISE(ABORT, 'finding rows are never deleted');
END;
CREATE TRIGGER decision_stays BEFORE DELETE ON decision BEGIN
  SELECT RAISE(ABORT, 'decision rows are never deleted');
END;
CREATE TRIGGER cut_stays BEFORE DELETE ON cut BEGIN
  SELECT RAISE(ABORT, 'cut rows are never deleted');
END;
CREATE TRIGGER amendment_stays BEFORE DELETE ON amendment BEGIN
  SELECT RAISE(ABORT, 'amendment rows are never deleted');
END;
CREATE TRIGGER change_stays BEFORE DELETE ON change BEGIN
  SELECT RAISE(ABORT, 'change rows are never deleted');
END;
CREATE TRIGGER change_is_final BEFORE UPDATE ON change BEGIN
  SELECT RAISE(ABORT, 'change rows are never changed');
END;
CREATE TRIGGER amendment_is_final BEFORE UPDATE ON amendment BEGIN
  SELECT RAISE(ABORT, 'amendment rows are never changed');
END;
CREATE TRIGGER decision_is_final BEFORE UPDATE ON decision BEGIN
  SELECT RAISE(ABORT, 'decision rows are never changed');
END;
CREATE TRIGGER cut_is_final BEFORE UPDATE ON cut BEGIN
  SELECT RAISE(ABORT, 'cut rows are never changed');
END;
CREATE TRIGGER zero_check_is_final BEFORE UPDATE ON zero_check BEGIN
  SELECT RAISE(ABORT, 'zero_check rows are never changed');
END;
CREATE TRIGGER reading_is_final BEFORE UPDATE ON reading
WHEN NEW.id IS NOT OLD.id OR
     NEW.job_id IS NOT OLD.job_id OR
     NEW.part_id IS NOT OLD.part_id OR
     NEW.stage IS NOT OLD.stage OR
     NEW.quantity IS NOT OLD.quantity OR
     NEW.circle IS NOT OLD.circle OR
     NEW.point IS NOT OLD.point OR
     NEW.angle_deg IS NOT OLD.angle_deg OR
     NEW.value_nm IS NOT OLD.value_nm OR
     NEW.value_unit IS NOT OLD.value_unit OR
     NEW.value_resolution_nm IS NOT OLD.value_resolution_nm OR
     NEW.value_text IS NOT OLD.value_text OR
     NEW.instrument_id IS NOT OLD.instrument_id OR
     NEW.zero_check_id IS NOT OLD.zero_check_id OR
     NEW.supersedes_id IS NOT OLD.supersedes_id OR
     NEW.by_person_id IS NOT OLD.by_person_id OR
     NEW.taken_at IS NOT OLD.taken_at OR
     NEW.received_at IS NOT OLD.received_at
BEGIN
  SELECT RAISE(ABORT, 'reading rows are never changed, only withdrawn');
END;
CREATE TRIGGER finding_is_final BEFORE UPDATE ON finding
WHEN NEW.id IS NOT OLD.id OR
     NEW.job_id IS NOT OLD.job_id OR
     NEW.part_id IS NOT OLD.part_id OR
     NEW.kind IS NOT OLD.kind OR
     NEW.judgement IS NOT OLD.judgement OR
     NEW.note IS NOT OLD.note OR
     NEW.by_person_id IS NOT OLD.by_person_id OR
     NEW.at IS NOT OLD.at
BEGIN
  SELECT RAISE(ABORT, 'finding rows are never changed, only withdrawn');
END;

CREATE TRIGGER part_keeps_its_job BEFORE UPDATE ON part WHEN NEW.job_id IS NOT OLD.job_id BEGIN
  SELECT RAISE(ABORT, 'a part stays with its job');
END;
CREATE TRIGGER job_keeps_its_number BEFORE UPDATE ON job WHEN NEW.number IS NOT OLD.number BEGIN
  SELECT RAISE(ABORT, 'a job keeps its number');
END;
CREATE TRIGGER sealed_job_stays BEFORE UPDATE ON job WHEN OLD.state = 'sealed' BEGIN
  SELECT RAISE(ABORT, 'a sealed job is never changed');
END;

-- Words to find a job by: number, vehicle, who brought it, complaint, worker.
CREATE VIRTUAL TABLE job_search USING fts5 (words, tokenize = "unicode61 remove_diacritics 2", prefix = '1 2 3');

CREATE VIEW job_words (number, words) AS
SELECT job.number,
       job.number || ' ' || job.vehicle || ' ' || job.brought_by || ' ' || replace(job.complaint, '_', ' ') || ' ' ||
       job.complaint_note || ' ' || coalesce(person.name, '')
FROM job LEFT JOIN person ON person.id = job.worker_person_id;

CREATE TRIGGER job_search_insert AFTER INSERT ON job BEGIN
  INSERT INTO job_search (rowid, words) SELECT number, words FROM job_words WHERE number = NEW.number;
END;
CREATE TRIGGER job_search_update AFTER UPDATE ON job
WHEN NEW.vehicle IS NOT OLD.vehicle OR NEW.brought_by IS NOT OLD.brought_by OR
     NEW.complaint IS NOT OLD.complaint OR NEW.complaint_note IS NOT OLD.complaint_note OR
     NEW.worker_person_id IS NOT OLD.worker_person_id
BEGIN
  UPDATE job_search SET words = (SELECT words FROM job_words WHERE number = NEW.number) WHERE rowid = NEW.number;
END;
CREATE TRIGGER job_search_rename AFTER UPDATE OF name ON person WHEN NEW.name IS NOT OLD.name BEGIN
  UPDATE job_search SET words = (SELECT words FROM job_words WHERE number = job_search.rowid)
  WHERE rowid IN (SELECT number FROM job WHERE worker_person_id = NEW.id);
END;

INSERT INTO counter (name, value) VALUES ('job_number', 0);
