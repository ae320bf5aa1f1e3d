import { useLayoutEffect, useRef } from 'preact/hooks';
import { call } from '../api/client';
import type { Job, WaitsFor } from '../api/schema';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { refreshJob } from '../state/job';
import { words } from '../words';

interface Props {
  job: Job;
  waits_for: WaitsFor | null;
  onClose: () => void;
}

/**
 * The second word before a job is closed. It stands at the top of the page, away from where the first tap was, so that
 * one stray touch never seals a job.
 */
export function Seal({ job, waits_for, onClose }: Props) {
  const { record } = words;
  const saving = useSaving();
  const box = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    box.current?.scrollIntoView({ block: 'center' });
    box.current?.querySelector<HTMLElement>('.plain')?.focus();
  }, []);
  const open = waits_for !== null && waits_for !== 'seal' && waits_for !== 'nothing';
  const seal = () =>
    saving.run(async () => {
      await call('post', '/jobs/{job_id}/seal', { path: { job_id: job.id } });
      await refreshJob();
      onClose();
    });
  return (
    <section class="seal" role="alertdialog" aria-label={record.seal_sure} ref={box}>
      <h2>{record.seal_sure}</h2>
      <p>{record.seal_lead}</p>
      {open ? <p class="doubt">{record.seal_waits(words.board.waits[waits_for])}</p> : null}
      <TroubleLine text={saving.trouble?.message} />
      <div class="row">
        <button type="button" disabled={saving.busy} onClick={seal}>
          {record.seal_yes}
        </button>
        <button type="button" class="plain" onClick={onClose}>
          {record.seal_no}
        </button>
      </div>
    </section>
  );
}
