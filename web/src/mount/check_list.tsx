import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { JobFile, Mount, Part } from '../api/schema';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { refreshJob, sealed } from '../state/job';
import { words } from '../words';
import { checkList, ticked } from './mounted';

/** What is seen to before anything is read: each tick is on record with its time. */
export function CheckList({ file, part, mount }: { file: JobFile; part: Part; mount: Mount }) {
  const { check } = words.mount;
  const saving = useSaving();
  const [ahead, setAhead] = useState<Record<string, boolean>>({});
  const done = ticked(file.bench_steps, part.id, mount.at);
  const tick = (step: string, now: boolean) => {
    setAhead((those) => ({ ...those, [step]: now }));
    void saving
      .run(async () => {
        const event = now ? ('done' as const) : ('undone' as const);
        const taken_at = new Date().toISOString();
        const body = {
          id: newId(),
          part_id: part.id,
          phase: 'mount' as const,
          step,
          pass: 0,
          event,
          detail: '',
          taken_at,
        };
        await call('post', '/jobs/{job_id}/bench-steps', { path: { job_id: file.job.id }, body });
        await refreshJob();
      })
      .then(() => setAhead(({ [step]: _, ...rest }) => rest));
  };
  return (
    <section class="check-list" aria-label={check.title}>
      <h2>{check.title}</h2>
      <p class="small soft">{check.lead}</p>
      <ul>
        {checkList(part.construction).map((step) => (
          <li key={step}>
            <label class="tick">
              <input
                type="checkbox"
                checked={ahead[step] ?? done.has(step)}
                disabled={sealed.value}
                onChange={(event) => tick(step, event.currentTarget.checked)}
              />
              <span>{check.steps[step]}</span>
            </label>
          </li>
        ))}
      </ul>
      <p class="small soft">{check.dust}</p>
      <TroubleLine text={saving.trouble?.message} />
    </section>
  );
}
