import type { components } from '../api/types';

type Schemas = components['schemas'];
export type Study = Schemas['CalcDialstudyOutput'];

/** One finished job of a lathe, as the study takes it, with where it stands in time. */
export interface StudyJob {
  job_number: number;
  at: string;
  outboard_marks: number;
  inboard_marks: number;
  depth_um: number;
  u_depth_um: number;
}

export interface StudyPoint {
  number: number;
  at_ms: number;
  marks: number;
  per_mark_um: number;
  u_um: number;
}

/** What each job says of a mark, both dials together, in order of time; a job without a mark says nothing. */
export function pointsOf(jobs: readonly StudyJob[]): StudyPoint[] {
  return jobs
    .flatMap((job) => {
      const marks = job.outboard_marks + job.inboard_marks;
      if (marks <= 0) return [];
      const at_ms = Date.parse(job.at);
      const point = {
        number: job.job_number,
        at_ms,
        marks,
        per_mark_um: job.depth_um / marks,
        u_um: job.u_depth_um / marks,
      };
      return [point];
    })
    .sort((a, b) => a.at_ms - b.at_ms);
}

/** Ends of the upright axis: everything that is drawn, with a little room; never a single value. */
export function rangeOf(values: readonly number[]): { low: number; high: number } {
  const finite = values.filter(Number.isFinite);
  if (finite.length === 0) return { low: 0, high: 1 };
  const low = Math.min(...finite);
  const high = Math.max(...finite);
  const room = Math.max(0.08 * (high - low), 0.01 * Math.abs(high), 0.05);
  return { low: low - room, high: high + room };
}
