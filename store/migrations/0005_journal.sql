-- The journal chained by hashes, with a signed head.

ALTER TABLE change ADD COLUMN salt TEXT NOT NULL DEFAULT '';
ALTER TABLE change ADD COLUMN detail_sha256 TEXT NOT NULL DEFAULT '';
ALTER TABLE change ADD COLUMN entry_sha256 TEXT NOT NULL DEFAULT '';

CREATE TABLE journal_head (
  only INTEGER PRIMARY KEY CHECK (only = 1) DEFAULT 1,
  seq INTEGER NOT NULL,
  entry_sha256 TEXT NOT NULL,
  public_key TEXT NOT NULL,
  signature TEXT NOT NULL
) STRICT;

-- The head as it was signed with the entry that sealed a job.
CREATE TABLE journal_seal (
  seq INTEGER PRIMARY KEY REFERENCES change (seq) DEFERRABLE INITIALLY DEFERRED,
  job_id TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  entry_sha256 TEXT NOT NULL,
  public_key TEXT NOT NULL,
  signature TEXT NOT NULL
) STRICT;

CREATE INDEX journal_seal_by_job ON journal_seal (job_id, seq);

CREATE TRIGGER journal_seal_stays BEFORE DELETE ON journal_seal BEGIN
  SELECT RAISE(ABORT, 'journal_seal rows are never deleted');
END;
CREATE TRIGGER journal_seal_is_final BEFORE UPDATE ON journal_seal BEGIN
  SELECT RAISE(ABORT, 'journal_seal rows are never changed');
END;

-- An entry gets its hashes once, where it is from before there were any, and its detail can only be emptied.
DROP TRIGGER change_is_final;
CREATE TRIGGER change_is_final BEFORE UPDATE ON change
WHEN NEW.seq IS NOT OLD.seq OR
     NEW.id IS NOT OLD.id OR
     NEW.kind IS NOT OLD.kind OR
     NEW.job_id IS NOT OLD.job_id OR
     NEW.subject_id IS NOT OLD.subject_id OR
     NEW.by_person_id IS NOT OLD.by_person_id OR
     NEW.at IS NOT OLD.at OR
     (NEW.detail_json IS NOT OLD.detail_json AND NEW.detail_json IS NOT '') OR
     (OLD.entry_sha256 IS NOT '' AND
      (NEW.entry_sha256 IS NOT OLD.entry_sha256 OR NEW.detail_sha256 IS NOT OLD.detail_sha256 OR
       (NEW.salt IS NOT OLD.salt AND NEW.salt IS NOT '')))
BEGIN
  SELECT RAISE(ABORT, 'change rows are never changed');
END;

-- The counter of job numbers follows from the jobs.
UPDATE counter SET value = max(value, (SELECT coalesce(max(number), 0) FROM job)) WHERE name = 'job_number';
CREATE TRIGGER job_number_counts AFTER INSERT ON job BEGIN
  UPDATE counter SET value = max(value, NEW.number) WHERE name = 'job_number';
END;
