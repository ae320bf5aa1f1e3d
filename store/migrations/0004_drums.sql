-- Drums: what a part is, its limits as diameters, its band and its shoe; jobs of one vehicle.

ALTER TABLE job ADD COLUMN beside_job_id TEXT;  -- may name a job that is not in this shop: one job can be carried over

CREATE INDEX job_beside ON job (beside_job_id) WHERE beside_job_id IS NOT NULL;

ALTER TABLE part ADD COLUMN kind TEXT;
ALTER TABLE part ADD COLUMN limits_out_of_round_value_nm INTEGER;
ALTER TABLE part ADD COLUMN limits_out_of_round_value_unit TEXT CHECK (limits_out_of_round_value_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN limits_out_of_round_value_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN limits_out_of_round_value_text TEXT;
ALTER TABLE part ADD COLUMN limits_out_of_round_source TEXT;
ALTER TABLE part ADD COLUMN limits_out_of_round_source_note TEXT;
ALTER TABLE part ADD COLUMN limits_taper_value_nm INTEGER;
ALTER TABLE part ADD COLUMN limits_taper_value_unit TEXT CHECK (limits_taper_value_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN limits_taper_value_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN limits_taper_value_text TEXT;
ALTER TABLE part ADD COLUMN limits_taper_source TEXT;
ALTER TABLE part ADD COLUMN limits_taper_source_note TEXT;
ALTER TABLE part ADD COLUMN band_width_nm INTEGER;
ALTER TABLE part ADD COLUMN band_width_unit TEXT CHECK (band_width_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN band_width_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN band_width_text TEXT;
ALTER TABLE part ADD COLUMN lining_radius_nm INTEGER;
ALTER TABLE part ADD COLUMN lining_radius_unit TEXT CHECK (lining_radius_unit IN ('mm', 'in'));
ALTER TABLE part ADD COLUMN lining_radius_resolution_nm INTEGER;
ALTER TABLE part ADD COLUMN lining_radius_text TEXT;
ALTER TABLE part ADD COLUMN lining_arc_deg REAL;

ALTER TABLE known_part ADD COLUMN kind TEXT;
ALTER TABLE known_part ADD COLUMN limits_out_of_round_value_nm INTEGER;
ALTER TABLE known_part ADD COLUMN limits_out_of_round_value_unit TEXT CHECK (limits_out_of_round_value_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN limits_out_of_round_value_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN limits_out_of_round_value_text TEXT;
ALTER TABLE known_part ADD COLUMN limits_out_of_round_source TEXT;
ALTER TABLE known_part ADD COLUMN limits_out_of_round_source_note TEXT;
ALTER TABLE known_part ADD COLUMN limits_taper_value_nm INTEGER;
ALTER TABLE known_part ADD COLUMN limits_taper_value_unit TEXT CHECK (limits_taper_value_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN limits_taper_value_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN limits_taper_value_text TEXT;
ALTER TABLE known_part ADD COLUMN limits_taper_source TEXT;
ALTER TABLE known_part ADD COLUMN limits_taper_source_note TEXT;
ALTER TABLE known_part ADD COLUMN band_width_nm INTEGER;
ALTER TABLE known_part ADD COLUMN band_width_unit TEXT CHECK (band_width_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN band_width_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN band_width_text TEXT;
ALTER TABLE known_part ADD COLUMN lining_radius_nm INTEGER;
ALTER TABLE known_part ADD COLUMN lining_radius_unit TEXT CHECK (lining_radius_unit IN ('mm', 'in'));
ALTER TABLE known_part ADD COLUMN lining_radius_resolution_nm INTEGER;
ALTER TABLE known_part ADD COLUMN lining_radius_text TEXT;
ALTER TABLE known_part ADD COLUMN lining_arc_deg REAL;
