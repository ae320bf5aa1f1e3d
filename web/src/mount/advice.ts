import { call } from '../api/client';
import type { JobFile, Part, StackAdvice } from '../api/schema';
import { type Answered, lastOf, useAnswer } from '../state/answer';

const COUNT = 3;
const SETTLE_MS = 80;
const TOUCHES = /^(?:piece|mount|part|lathe|job|reading)\./;

/** The stacks that the shop advises for a part, asked again when the pegboard, the part or a lathe changes. */
export function useAdvice(file: JobFile, part: Part): Answered<StackAdvice> {
  return useAnswer(
    () =>
      call('get', '/jobs/{job_id}/parts/{part_id}/stacks', {
        path: { job_id: file.job.id, part_id: part.id },
        query: { count: COUNT },
      }),
    [file.job.id, file.job.lathe_id, part.id, part.version, lastOf(TOUCHES)],
    SETTLE_MS,
  );
}
