import { call, Refused } from '../api/client';

/** The id of the job of this number; null where none is typed. A number of no job is refused beside its field. */
export async function jobNamed(text: string, unknown: string): Promise<string | null> {
  const number = text.trim();
  if (number === '') return null;
  const refuse = () => new Refused(404, { code: 'unknown_job', field: 'job_id', message: unknown });
  if (!/^\d+$/.test(number)) throw refuse();
  try {
    return (await call('get', '/jobs/{job_id}', { path: { job_id: number } })).job.id;
  } catch (cause) {
    throw cause instanceof Refused && cause.status === 404 ? refuse() : cause;
  }
}
