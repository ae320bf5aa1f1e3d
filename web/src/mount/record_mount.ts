import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { JobFile, Part } from '../api/schema';
import { useSaving } from '../controls/saving';
import { loadPegboard } from '../pegboard/board_state';
import { ask } from '../route/router';
import { refreshJob } from '../state/job';

/** Records what went on the arbor, once however often it is sent; the shop takes its pieces off the pegboard. */
export function useRecordMount(file: JobFile, part: Part, lathe_id: string) {
  const [id] = useState(newId);
  const saving = useSaving();
  const record = (piece_ids: readonly string[], reason: string) =>
    saving.run(async () => {
      const body = { id, part_id: part.id, lathe_id, piece_ids: [...piece_ids], reason: reason.trim() };
      await call('post', '/jobs/{job_id}/mounts', { path: { job_id: file.job.id }, body });
      await Promise.all([refreshJob(), loadPegboard()]);
      ask({ part: part.side, view: 'prove' });
    });
  return { saving, record };
}
