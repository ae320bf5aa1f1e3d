-- The shop's iron, and what is done to a part at the lathe. Lists are JSON text.

ALTER TABLE settings ADD COLUMN cutting_rough_max_um REAL NOT NULL DEFAULT 250;
ALTER TABLE settings ADD COLUMN cutting_finish_min_um REAL NOT NULL DEFAULT 50;
ALTER TABLE settings ADD COLUMN cutting_finish_max_um REAL NOT NULL DEFAULT 100;
ALTER TABLE settings ADD COLUMN cutting_depth_basis TEXT NOT NULL DEFAULT 'common practice, no source';
ALTER TABLE settings ADD COLUMN cutting_ra_target_um REAL NOT NULL DEFAULT 1.5;
ALTER TABLE settings ADD COLUMN cutting_ra_factor REAL NOT NULL DEFAULT 1.5;
ALTER TABLE settings ADD COLUMN cutting_ra_basis TEXT NOT NULL DEFAULT 'common practice, no source';
ALTER TABLE settings ADD COLUMN cutting_mount_runout_max_um REAL NOT NULL DEFAULT 50;
ALTER TABLE settings ADD COLUMN cutting_mount_basis TEXT NOT NULL DEFAULT 'common practice, no source';

ALTER TABLE lathe ADD COLUMN dial_inboard_um_per_mark REAL;
ALTER TABLE lathe ADD COLUMN dial_reads TEXT NOT NULL DEFAULT 'depth';
ALTER TABLE lathe ADD COLUMN arbor_diameter_nm INTEGER;
ALTER TABLE lathe ADD COLUMN thread_start_nm INTEGER;
ALTER TABLE lathe ADD COLUMN tip_nm INTEGER;
ALTER TABLE lathe ADD COLUMN nut_engagement_nm INTEGER NOT NULL DEFAULT 8000000;
ALTER TABLE lathe ADD COLUMN nut_thread TEXT NOT NULL DEFAULT 'left';
ALTER TABLE lathe ADD COLUMN travel_nm INTEGER;
ALTER TABLE lathe ADD COLUMN approach_nm INTEGER NOT NULL DEFAULT 6000000;
ALTER TABLE lathe ADD COLUMN speeds_rpm TEXT NOT NULL DEFAULT '[]';
ALTER TABLE lathe ADD COLUMN feeds_mm_per_rev TEXT NOT NULL DEFAULT '[]';

ALTER TABLE part ADD COLUMN seat_bore_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_bore_unit TEXT CHECK (seat_bore_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN seat_bore_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_bore_text TEXT;
ALTER TABLE part ADD COLUMN seat_flange_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_flange_unit TEXT CHECK (seat_flange_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN seat_flange_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_flange_text TEXT;
ALTER TABLE part ADD COLUMN seat_flat_inner_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_flat_inner_unit TEXT CHECK (seat_flat_inner_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN seat_flat_inner_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_flat_inner_text TEXT;
ALTER TABLE part ADD COLUMN seat_flat_outer_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_flat_outer_unit TEXT CHECK (seat_flat_outer_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN seat_flat_outer_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_flat_outer_text TEXT;
ALTER TABLE part ADD COLUMN seat_flat_inner_inboard_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_flat_inner_inboard_unit TEXT CHECK (seat_flat_inner_inboard_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN seat_flat_inner_inboard_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_flat_inner_inboard_text TEXT;
ALTER TABLE part ADD COLUMN seat_flat_outer_inboard_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_flat_outer_inboard_unit TEXT CHECK (seat_flat_outer_inboard_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN seat_flat_outer_inboard_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_flat_outer_inboard_text TEXT;
ALTER TABLE part ADD COLUMN seat_hub_length_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_hub_length_unit TEXT CHECK (seat_hub_length_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN seat_hub_length_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_hub_length_text TEXT;
ALTER TABLE part ADD COLUMN seat_inner_race_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_inner_race_unit TEXT CHECK (seat_inner_race_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN seat_inner_race_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_inner_race_text TEXT;
ALTER TABLE part ADD COLUMN seat_outer_race_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_outer_race_unit TEXT CHECK (seat_outer_race_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN seat_outer_race_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_outer_race_text TEXT;
ALTER TABLE part ADD COLUMN seat_ring_inner_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_ring_inner_unit TEXT CHECK (seat_ring_inner_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN seat_ring_inner_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN seat_ring_inner_text TEXT;

ALTER TABLE known_part ADD COLUMN seat_bore_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_bore_unit TEXT CHECK (seat_bore_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN seat_bore_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_bore_text TEXT;
ALTER TABLE known_part ADD COLUMN seat_flange_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_flange_unit TEXT CHECK (seat_flange_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN seat_flange_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_flange_text TEXT;
ALTER TABLE known_part ADD COLUMN seat_flat_inner_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_flat_inner_unit TEXT CHECK (seat_flat_inner_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN seat_flat_inner_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_flat_inner_text TEXT;
ALTER TABLE known_part ADD COLUMN seat_flat_outer_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_flat_outer_unit TEXT CHECK (seat_flat_outer_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN seat_flat_outer_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_flat_outer_text TEXT;
ALTER TABLE known_part ADD COLUMN seat_flat_inner_inboard_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_flat_inner_inboard_unit TEXT CHECK (seat_flat_inner_inboard_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN seat_flat_inner_inboard_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_flat_inner_inboard_text TEXT;
ALTER TABLE known_part ADD COLUMN seat_flat_outer_inboard_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_flat_outer_inboard_unit TEXT CHECK (seat_flat_outer_inboard_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN seat_flat_outer_inboard_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_flat_outer_inboard_text TEXT;
ALTER TABLE known_part ADD COLUMN seat_hub_length_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_hub_length_unit TEXT CHECK (seat_hub_length_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN seat_hub_length_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_hub_length_text TEXT;
ALTER TABLE known_part ADD COLUMN seat_inner_race_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_inner_race_unit TEXT CHECK (seat_inner_race_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN seat_inner_race_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_inner_race_text TEXT;
ALTER TABLE known_part ADD COLUMN seat_outer_race_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_outer_race_unit TEXT CHECK (seat_outer_race_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN seat_outer_race_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_outer_race_text TEXT;
ALTER TABLE known_part ADD COLUMN seat_ring_inner_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_ring_inner_unit TEXT CHECK (seat_ring_inner_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN seat_ring_inner_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN seat_ring_inner_text TEXT;

ALTER TABLE cut ADD COLUMN dial_inboard_um_per_mark REAL;

CREATE TABLE piece (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  kind TEXT NOT NULL,
  hook TEXT NOT NULL,
  unit TEXT NOT NULL,
  bore_nm INTEGER NOT NULL,
  length_nm INTEGER NOT NULL,
  small_nm INTEGER,
  large_nm INTEGER,
  ring_inner_nm INTEGER,
  ring_outer_nm INTEGER,
  cup_depth_nm INTEGER,
  cup_bore_nm INTEGER,
  solid_nm INTEGER,
  free_nm INTEGER,
  outside_nm INTEGER,
  weighted INTEGER NOT NULL CHECK (weighted IN (0, 1)),
  damping INTEGER NOT NULL CHECK (damping IN (0, 1)),
  runout_um REAL,
  note TEXT NOT NULL,
  active INTEGER NOT NULL CHECK (active IN (0, 1))
) STRICT;

CREATE TABLE booking (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  piece_id TEXT NOT NULL REFERENCES piece (id) DEFERRABLE INITIALLY DEFERRED,
  kind TEXT NOT NULL,
  job_id TEXT REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  note TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE cutting_insert (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  nose_radius_nm INTEGER NOT NULL,
  max_speed_m_per_min REAL NOT NULL,
  corners INTEGER NOT NULL,
  note TEXT NOT NULL,
  active INTEGER NOT NULL CHECK (active IN (0, 1))
) STRICT;

CREATE TABLE corner (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  insert_id TEXT NOT NULL REFERENCES cutting_insert (id) DEFERRABLE INITIALLY DEFERRED,
  number INTEGER NOT NULL,
  condition TEXT NOT NULL,
  used_m REAL NOT NULL,
  note TEXT NOT NULL,
  UNIQUE (insert_id, number)
) STRICT;

CREATE TABLE band (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  hook TEXT NOT NULL,
  least_diameter_nm INTEGER,
  most_diameter_nm INTEGER,
  note TEXT NOT NULL,
  active INTEGER NOT NULL CHECK (active IN (0, 1))
) STRICT;

CREATE TABLE mount (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  part_id TEXT NOT NULL REFERENCES part (id) DEFERRABLE INITIALLY DEFERRED,
  lathe_id TEXT NOT NULL REFERENCES lathe (id) DEFERRABLE INITIALLY DEFERRED,
  piece_ids TEXT NOT NULL,
  length_mm REAL NOT NULL,
  q TEXT NOT NULL,
  why TEXT NOT NULL,
  reason TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE mount_proof (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  part_id TEXT NOT NULL REFERENCES part (id) DEFERRABLE INITIALLY DEFERRED,
  kind TEXT NOT NULL,
  runout_nm INTEGER,
  runout_unit TEXT CHECK (runout_unit IN ('mm', 'in')),
  runout_resolution_nm INTEGER,
  runout_text TEXT,
  trace_um TEXT NOT NULL,
  marks TEXT NOT NULL,
  runout_um REAL NOT NULL,
  upper_bound INTEGER NOT NULL CHECK (upper_bound IN (0, 1)),
  part_runout_um REAL,
  part_high_deg REAL,
  mount_runout_um REAL,
  mount_high_deg REAL,
  allowed_um REAL NOT NULL,
  costs_um REAL NOT NULL,
  goes_on INTEGER NOT NULL CHECK (goes_on IN (0, 1)),
  reason TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE cut_plan (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  part_id TEXT NOT NULL REFERENCES part (id) DEFERRABLE INITIALLY DEFERRED,
  lathe_id TEXT NOT NULL REFERENCES lathe (id) DEFERRABLE INITIALLY DEFERRED,
  insert_id TEXT REFERENCES cutting_insert (id) DEFERRABLE INITIALLY DEFERRED,
  passes TEXT NOT NULL,
  time_s REAL NOT NULL,
  final_mm REAL NOT NULL,
  by_hand INTEGER NOT NULL CHECK (by_hand IN (0, 1)),
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE pass (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  part_id TEXT NOT NULL REFERENCES part (id) DEFERRABLE INITIALLY DEFERRED,
  plan_id TEXT REFERENCES cut_plan (id) DEFERRABLE INITIALLY DEFERRED,
  number INTEGER NOT NULL,
  outboard_marks INTEGER NOT NULL,
  inboard_marks INTEGER NOT NULL,
  rpm REAL NOT NULL,
  feed_mm_per_rev REAL NOT NULL,
  outboard_corner_id TEXT REFERENCES corner (id) DEFERRABLE INITIALLY DEFERRED,
  inboard_corner_id TEXT REFERENCES corner (id) DEFERRABLE INITIALLY DEFERRED,
  outcome TEXT NOT NULL,
  began_at TEXT NOT NULL,
  ended_at TEXT NOT NULL,
  note TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE bench_step (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  part_id TEXT NOT NULL REFERENCES part (id) DEFERRABLE INITIALLY DEFERRED,
  phase TEXT NOT NULL,
  step TEXT NOT NULL,
  pass INTEGER NOT NULL,
  event TEXT NOT NULL,
  detail TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  taken_at TEXT NOT NULL,
  received_at TEXT NOT NULL
) STRICT;

CREATE INDEX mount_by_job ON mount (job_id);
CREATE INDEX mount_proof_by_job ON mount_proof (job_id);
CREATE INDEX cut_plan_by_job ON cut_plan (job_id);
CREATE INDEX pass_by_job ON pass (job_id);
CREATE INDEX bench_step_by_job ON bench_step (job_id);
CREATE INDEX booking_by_piece ON booking (piece_id, place);

CREATE TRIGGER piece_stays BEFORE DELETE ON piece BEGIN
  SELECT RAISE(ABORT, 'piece rows are never deleted');
END;
CREATE TRIGGER cutting_insert_stays BEFORE DELETE ON cutting_insert BEGIN
  SELECT RAISE(ABORT, 'cutting_insert rows are never deleted');
END;
CREATE TRIGGER corner_stays BEFORE DELETE ON corner BEGIN
  SELECT RAISE(ABORT, 'corner rows are never deleted');
END;
CREATE TRIGGER band_stays BEFORE DELETE ON band BEGIN
  SELECT RAISE(ABORT, 'band rows are never deleted');
END;
CREATE TRIGGER booking_stays BEFORE DELETE ON booking BEGIN
  SELECT RAISE(ABORT, 'booking rows are never deleted');
END;
CREATE TRIGGER mount_stays BEFORE DELETE ON mount BEGIN
  SELECT RAISE(ABORT, 'mount rows are never deleted');
END;
CREATE TRIGGER mount_proof_stays BEFORE DELETE ON mount_proof BEGIN
  SELECT RAISE(ABORT, 'mount_proof rows are never deleted');
END;
CREATE TRIGGER cut_plan_stays BEFORE DELETE ON cut_plan BEGIN
  SELECT RAISE(ABORT, 'cut_plan rows are never deleted');
END;
CREATE TRIGGER pass_stays BEFORE DELETE ON pass BEGIN
  SELECT RAISE(ABORT, 'pass rows are never deleted');
END;
CREATE TRIGGER bench_step_stays BEFORE DELETE ON bench_step BEGIN
  SELECT RAISE(ABORT, 'bench_step rows are never deleted');
END;
CREATE TRIGGER booking_is_final BEFORE UPDATE ON booking BEGIN
  SELECT RAISE(ABORT, 'booking rows are never changed');
END;
CREATE TRIGGER mount_is_final BEFORE UPDATE ON mount BEGIN
  SELECT RAISE(ABORT, 'mount rows are never changed');
END;
CREATE TRIGGER mount_proof_is_final BEFORE UPDATE ON mount_proof BEGIN
  SELECT RAISE(ABORT, 'mount_proof rows are never changed');
END;
CREATE TRIGGER cut_plan_is_final BEFORE UPDATE ON cut_plan BEGIN
  SELECT RAISE(ABORT, 'cut_plan rows are never changed');
END;
CREATE TRIGGER pass_is_final BEFORE UPDATE ON pass BEGIN
  SELECT RAISE(ABORT, 'pass rows are never changed');
END;
CREATE TRIGGER bench_step_is_final BEFORE UPDATE ON bench_step BEGIN
  SELECT RAISE(ABORT, 'bench_step rows are never changed');
END;
