import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { Job, JobFile } from '../api/schema';
import { nameOfField, showField } from '../arrival/fields';
import { Conflict } from '../conflict/conflict';
import type { Merge } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { useSaving } from '../controls/saving';
import { refreshJob } from '../state/job';

const put = (body: Job) => call('put', '/jobs/{job_id}', { path: { job_id: body.id }, body });

/** A hundredth of a pulse a second is finer than any of these can tell. */
const tidy = (hz: number) => Number(hz.toFixed(2));

/** Puts a frequency that was found here into the job, and the speed that it was found at. */
export function useTaking(file: JobFile) {
  const saving = useSaving();
  const [taken, setTaken] = useState<number | null>(null);
  const [merge, setMerge] = useState<Merge<Job> | null>(null);
  const save = (base: Job, mine: Job) =>
    saving.run(async () => {
      const outcome = await saveMerging(base, mine, put, () => true);
      if ('merge' in outcome) {
        setMerge(outcome.merge);
        return;
      }
      setMerge(null);
      setTaken(outcome.saved.felt_frequency_hz ?? null);
      await refreshJob();
    });
  return {
    saving,
    taken,
    take: (hz: number, speed_km_per_h: number | null = null) => {
      const speed = speed_km_per_h === null ? {} : { felt_speed_km_per_h: speed_km_per_h };
      void save(file.job, { ...file.job, felt_frequency_hz: tidy(hz), ...speed });
    },
    settling: merge ? (
      <Conflict
        merge={merge}
        nameOf={nameOfField}
        show={showField}
        onClose={() => setMerge(null)}
        onSettled={(settled) => void save({ ...settled }, settled)}
      />
    ) : null,
  };
}

export type Taking = ReturnType<typeof useTaking>;
