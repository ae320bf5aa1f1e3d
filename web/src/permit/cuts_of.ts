import { call } from '../api/client';
import type { SupervisedCut } from '../api/schema';

/** The cuts that were signed for somebody: one's own, or for whoever leads anybody's. */
export const cutsOf = (person_id: string): Promise<SupervisedCut[]> =>
  call('get', '/supervised-cuts', { query: { person_id } });

const HOUR_MS = 3_600_000;
/** So long a signature lets its job go on; the shop holds the same. */
const SIGNED_FOR_MS = 12 * HOUR_MS;

/** Whether somebody signed for this job within the hours that a signature lasts. */
export const isSignedFor = (cuts: readonly SupervisedCut[], job_id: string, now_ms: number): boolean =>
  cuts.some((cut) => cut.job_id === job_id && !!cut.at && now_ms - Date.parse(cut.at) < SIGNED_FOR_MS);
