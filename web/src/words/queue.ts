import { duration } from './duration';

/** Who is next at a lathe. */
export const queue = {
  title: (lathe: string) => `Queue for ${lathe}`,
  unknown: 'No lathe has this address.',
  waiting: 'Fetching the queue…',
  free: 'Nobody waits. The lathe is free.',
  at_lathe: 'At the lathe',
  next: 'Next',
  later: (place: number) => `Place ${place}`,
  now: 'now',
  about: (hours: number, minutes: number) => `about ${duration(hours, minutes)}`,
  in_about: (text: string) => `in ${text}`,
  takes: (text: string) => `takes ${text}`,
  takes_between: (low: number, high: number) => `takes ${low} to ${high} min`,
  between: 'From the lower to the higher: as the quickest and the slowest quarter of them.',
  job: (n: number) => `Job ${n}`,
  meanwhile: 'Meanwhile',
  rests: {
    plans: 'Cutting times are those of the plans.',
    some_plans: 'Cutting times are those of the plans where there is one; the others are guessed.',
    no_plan: 'No plan yet: cutting times are guessed.',
  },
  wall: (minutes: number) =>
    `After ${minutes} minutes without a touch the door stands here: names and vehicles are for those who have come in.`,
  usual: (handling: string, cut: string) =>
    `Mounting and setting ${handling} a part, a cut without a plan ${cut}: common practice, no source.`,
  own: (n: number, handling: string, cut: string) =>
    `Mounting and setting ${handling} a part, a cut without a plan ${cut}: the middle of ${n} parts finished here.`,
  join: 'Put a job in the queue',
  join_title: 'Which job waits?',
  join_none: 'No open job is left that could wait here.',
  join_to: (minutes: string) => `Whoever joins now waits ${minutes}.`,
  leave: 'Out of the queue',
  leave_named: (n: number) => `Job ${n} out of the queue`,
  leave_sure: (n: number) => `Take job ${n} out of the queue?`,
  leave_means: 'Its place goes to the next one. Whoever comes back joins at the end.',
  why: 'done or given up',
  on_board: 'At the lathes',
  wait_count: (n: number) => (n === 0 ? 'free' : n === 1 ? '1 job' : `${n} jobs`),
} as const;
