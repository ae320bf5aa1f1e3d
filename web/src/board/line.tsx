import type { JobLine } from '../api/schema';
import { stepAddress, stepFor } from '../shell/step_path';
import { words } from '../words';

/** One job as one line: the number that is said aloud, what it is, what it waits for, who has it. */
export function Line({ line, end }: { line: JobLine; end?: string }) {
  const { job, waits_for, worker_name } = line;
  return (
    <a class="job-line" href={stepAddress(job.number, stepFor(waits_for))}>
      <span class="job-number figures">
        <span class="heard">{words.shell.job(job.number)}</span>
        <span aria-hidden="true">{job.number}</span>
      </span>{' '}
      <span class="job-what">
        <span class="job-vehicle">{job.vehicle}</span> <span class="soft small">{rotorsOf(line)}</span>
      </span>{' '}
      <span class="job-waits">{end ?? words.board.waits[waits_for]}</span>{' '}
      <span class="job-who soft">{worker_name || words.board.nobody}</span>
    </a>
  );
}

export function rotorsOf({ job, parts }: JobLine): string {
  const sides = parts.length === 2 ? words.board.sides.both : parts[0] ? words.board.sides[parts[0].side] : '';
  return `${words.board.axle[job.axle]}, ${sides}`;
}
