-- What the driver feels, the studs of a part, tapered plates, and how a part goes back on its hub.

ALTER TABLE job ADD COLUMN tyre TEXT;
ALTER TABLE job ADD COLUMN vehicle_mass_kg REAL;
ALTER TABLE job ADD COLUMN felt_in TEXT;
ALTER TABLE job ADD COLUMN felt_speed_km_per_h REAL;
ALTER TABLE job ADD COLUMN felt_frequency_hz REAL;

ALTER TABLE part ADD COLUMN studs INTEGER;
ALTER TABLE part ADD COLUMN hub_reading_diameter_nm INTEGER;
ALTER TABLE part ADD COLUMN hub_reading_diameter_unit TEXT CHECK (hub_reading_diameter_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN hub_reading_diameter_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN hub_reading_diameter_text TEXT;

ALTER TABLE known_part ADD COLUMN studs INTEGER;

CREATE TABLE taper_plate (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  hook TEXT NOT NULL,
  taper_um REAL NOT NULL,
  diameter_nm INTEGER NOT NULL,
  studs INTEGER NOT NULL,
  note TEXT NOT NULL,
  active INTEGER NOT NULL CHECK (active IN (0, 1))
) STRICT;

CREATE TABLE refit (
  place INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  part_id TEXT NOT NULL REFERENCES part (id) DEFERRABLE INITIALLY DEFERRED,
  studs INTEGER NOT NULL,
  position INTEGER NOT NULL,
  plate_id TEXT REFERENCES taper_plate (id) DEFERRABLE INITIALLY DEFERRED,
  plate_position INTEGER,
  foreseen_runout_um REAL,
  p_within REAL,
  nut_torque_nm REAL,
  torque_source TEXT NOT NULL,
  reason TEXT NOT NULL,
  by_person_id TEXT NOT NULL REFERENCES person (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL
) STRICT;

CREATE INDEX refit_by_job ON refit (job_id);

CREATE TRIGGER taper_plate_stays BEFORE DELETE ON taper_plate BEGIN
  SELECT RAISE(ABORT, 'taper_plate rows are never deleted');
END;
CREATE TRIGGER refit_stays BEFORE DELETE ON refit BEGIN
  SELECT RAISE(ABORT, 'refit rows are never deleted');
END;
CREATE TRIGGER refit_is_final BEFORE UPDATE ON refit BEGIN
  SELECT RAISE(ABORT, 'refit rows are never changed');
END;
