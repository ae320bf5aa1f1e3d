import { fillPath, send } from '../api/client';
import type { JobFile, Part, RefitAdvice } from '../api/schema';
import { type Answered, lastOf, useAnswer } from '../state/answer';

const SETTLE_MS = 120;
const TOUCHES = /^(?:part|plan|cut|reading|refit|taper_plate|settings)/;

/** How the shop says that a part goes back on its hub; asked again when what that rests on changes. */
export function useRefitAdvice(file: JobFile, part: Part): Answered<RefitAdvice> {
  const path = fillPath('/jobs/{job_id}/parts/{part_id}/refit', { job_id: file.job.id, part_id: part.id });
  return useAnswer(
    () => send({ method: 'get', path }) as Promise<RefitAdvice>,
    [path, part.version, lastOf(TOUCHES)],
    SETTLE_MS,
  );
}
