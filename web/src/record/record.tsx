import { useState } from 'preact/hooks';
import { address } from '../api/client';
import type { JobFile, Settings } from '../api/schema';
import { SameVehicle } from '../beside/beside';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { calendarDay } from '../show/time';
import { assessment, jobFile, sealed } from '../state/job';
import { personName, shop } from '../state/shop';
import { words } from '../words';
import { Amendments } from './amendments';
import { ImportReadings } from './import_readings';
import { Journal } from './journal_table';
import './record.css';
import { CHECK_ADDRESS } from './record_check';
import { Seal } from './seal';

type Paper = Settings['paper'];

/** The record as it will be printed, the way out of the shop, the seal, and all that was ever changed. */
export function Record() {
  const file = jobFile.value;
  const [chosen, setPaper] = useState<Paper | null>(null);
  const [sealing, setSealing] = useState(false);
  if (!file) return null;
  const { record } = words;
  const paper = chosen ?? shop.value?.settings.paper ?? 'a4';
  const base = `/jobs/${file.job.id}`;
  return (
    <Screen
      name="record"
      title={record.title}
      next={
        sealed.value ? (
          <a class="button main" href={address(`${base}/record.pdf`, { paper })} target="_blank" rel="noreferrer">
            {record.print}
          </a>
        ) : (
          <button type="button" class="main" onClick={() => setSealing(true)}>
            {record.seal}
          </button>
        )
      }
      aside={
        sealed.value ? null : (
          <a class="button" href={address(`${base}/record.pdf`, { paper })} target="_blank" rel="noreferrer">
            {record.print}
          </a>
        )
      }
    >
      {sealed.value ? <Sealed file={file} /> : null}
      {sealing && !sealed.value ? (
        <Seal job={file.job} waits_for={assessment.value?.waits_for ?? null} onClose={() => setSealing(false)} />
      ) : null}
      <div class="record">
        <Sheets file={file} paper={paper} />
        <div class="record-side">
          <Choice
            shown
            label={record.paper}
            value={paper}
            options={(['a4', 'letter'] as const).map((value) => ({ value, label: record.papers[value] }))}
            onChange={setPaper}
          />
          <a class="button" href={stepAddress(file.job.number, 'road')}>
            {words.road.open}
          </a>
          <section class="record-exports" aria-label={record.exports}>
            <h2>{record.exports}</h2>
            <a class="button" href={address(`${base}/export.json`)} download={`job-${file.job.number}.json`}>
              {record.export_json}
            </a>
            <a class="button" href={address(`${base}/export.csv`)} download={`job-${file.job.number}.csv`}>
              {record.export_csv}
            </a>
            <a class="button" href={CHECK_ADDRESS}>
              {record.check.open}
            </a>
          </section>
          <SameVehicle file={file} open={!sealed.value} paper={paper} />
          {sealed.value ? <Amendments file={file} /> : <ImportReadings file={file} />}
        </div>
      </div>
      <Journal file={file} />
    </Screen>
  );
}

function Sealed({ file }: { file: JobFile }) {
  const { sealed_at, sealed_by_person_id, seal_sha256 } = file.job;
  if (!sealed_at) return null;
  return (
    <div class="doubt">
      <p>
        <strong>{words.record.sealed(calendarDay(sealed_at), personName(sealed_by_person_id))}</strong>
      </p>
      <p class="small soft">
        {words.record.hash}: <span class="figures hash">{seal_sha256}</span>
      </p>
    </div>
  );
}

/** Readings, limits; then what was done at the lathe, and what was read and done on the car. */
function sheetsOf({ mounts, cut_plans, passes, bench_steps, readings, refits }: JobFile): number[] {
  const at_lathe = [mounts, cut_plans, passes].some((list) => list.length > 0);
  const ticked_there = bench_steps.some(({ phase }) => phase !== 'refit');
  const on_car = refits.length > 0 || readings.some(({ stage }) => stage === 'on_car' || stage === 'refit');
  const more = Number(at_lathe || ticked_there) + Number(on_car);
  return [1, 2, 3, 4].slice(0, 2 + more);
}

function Sheets({ file, paper }: { file: JobFile; paper: Paper }) {
  const { record } = words;
  const [missing, setMissing] = useState<readonly number[]>([]);
  const [attempt, setAttempt] = useState(0);
  const again = () => {
    setMissing([]);
    setAttempt(attempt + 1);
  };
  return (
    <div class="sheets">
      {sheetsOf(file)
        .filter((sheet) => !missing.includes(sheet))
        .map((sheet) => (
          <img
            key={`${paper}${sheet}/${file.seq ?? 0}/${attempt}`}
            class={`sheet sheet-${paper}`}
            src={address(`/jobs/${file.job.id}/record.svg`, { paper, sheet })}
            alt={record.sheet_of(sheet, file.job.vehicle)}
            onError={() => setMissing((known) => [...known, sheet])}
          />
        ))}
      {missing.includes(1) ? (
        <p class="trouble" role="alert">
          {record.no_sheet}{' '}
          <button type="button" onClick={again}>
            {record.again}
          </button>
        </p>
      ) : null}
    </div>
  );
}
