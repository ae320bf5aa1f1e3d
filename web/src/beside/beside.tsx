import { useState } from 'preact/hooks';
import { address, call } from '../api/client';
import { newId } from '../api/ids';
import type { JobFile, JobLine, Settings } from '../api/schema';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { go } from '../route/router';
import { stepAddress, stepFor } from '../shell/step_path';
import { useAnswer } from '../state/answer';
import { lastChange } from '../state/connection';
import { words } from '../words';
import './beside.css';
import { besideJob, kindOf, type Opening, openingsOf, othersOf } from './vehicle';

const MOST = 20;

/** The other jobs of this vehicle as links, their records in one where a paper is given, and buttons that open more. */
export function SameVehicle({ file, open, paper }: { file: JobFile; open: boolean; paper?: Settings['paper'] }) {
  const { beside } = words;
  const { id } = file.job;
  const { answer } = useAnswer(
    () => call('get', '/jobs', { query: { vehicle_of: id, limit: MOST } }),
    [id, lastChange.value?.seq],
  );
  const others = othersOf(answer?.lines ?? [], file.job);
  if (!answer || (others.length === 0 && !open)) return null;
  return (
    <section class="same-vehicle" aria-label={beside.title}>
      <h2>{beside.title}</h2>
      <ul class="row">
        {others.map((line) => (
          <li key={line.job.id}>
            <ToJob line={line} />
          </li>
        ))}
      </ul>
      {others.length > 0 && paper ? (
        <a
          class="button"
          href={address(`/jobs/${id}/record.pdf`, { paper, vehicle: true })}
          target="_blank"
          rel="noreferrer"
        >
          {beside.print}
        </a>
      ) : null}
      {open ? <Openings file={file} openings={openingsOf(file, others)} /> : null}
    </section>
  );
}

/** "Job 12: rear axle, drums", a link to where it waits. */
export function ToJob({ line }: { line: JobLine }) {
  const { beside } = words;
  const { job, parts, waits_for } = line;
  const said = beside.job(job.number ?? 0, words.trade.axle[job.axle], beside.kinds[kindOf(parts)]);
  return (
    <a class="button" href={stepAddress(job.number, stepFor(waits_for))}>
      {job.state === 'sealed' ? `${said}, ${beside.sealed}` : said}
    </a>
  );
}

function Openings({ file, openings }: { file: JobFile; openings: readonly Opening[] }) {
  const { beside } = words;
  const saving = useSaving();
  const [ids] = useState(() => ({ job: newId(), left: newId(), right: newId() }));
  if (openings.length === 0) return null;
  const start = (opening: Opening) =>
    saving.run(async () => {
      const made = await call('post', '/jobs', { body: besideJob(file, opening, ids) });
      go(`/jobs/${made.job.number}/arrival`);
    });
  const said = (opening: Opening) =>
    opening.name === 'hats' ? beside.open.hats : beside.open[opening.name](words.trade.axle[opening.axle]);
  return (
    <>
      <p class="small soft">{beside.lead}</p>
      <TroubleLine text={saving.trouble?.message} />
      <div class="row">
        {openings.map((opening) => (
          <button key={opening.name} type="button" disabled={saving.busy} onClick={() => void start(opening)}>
            {said(opening)}
          </button>
        ))}
      </div>
    </>
  );
}
