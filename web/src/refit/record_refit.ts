import { useRef } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { JobFile, Part } from '../api/schema';
import { useSaving } from '../controls/saving';
import { refreshJob } from '../state/job';
import type { Choosing } from './choice';
import type { Torque } from './place';

/** Writes down how the part went on, once its nuts are at torque. A second attempt with the same id changes nothing. */
export function useRecordRefit(file: JobFile, part: Part, { chosen, best, isBest, settle }: Choosing) {
  const saving = useSaving();
  const id = useRef(newId());
  const record = async (torque: Torque | null): Promise<boolean> => {
    const went = await saving.run(async () => {
      await call('post', '/jobs/{job_id}/refits', {
        path: { job_id: file.job.id },
        body: {
          id: id.current,
          part_id: part.id,
          position: chosen.position,
          plate_id: chosen.plate_id,
          plate_position: chosen.plate_position,
          nut_torque_nm: torque?.nm ?? null,
          torque_source: torque?.source ?? '',
          reason: best && isBest ? '' : chosen.reason.trim(),
        },
      });
      await refreshJob();
    });
    if (went) {
      id.current = newId();
      settle();
    }
    return went;
  };
  return { record, busy: saving.busy, trouble: saving.trouble?.message ?? '' };
}
