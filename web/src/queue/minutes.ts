import type { LatheQueue, QueueLine } from '../api/schema';
import { hoursAndMinutes } from '../show/time';

const FINE_UNTIL = 10;
const STEP = 5;

/** As coarse as the figure is: to the minute under ten, then to five. */
export const coarse = (minutes: number): number =>
  minutes < FINE_UNTIL ? Math.max(1, Math.round(minutes)) : Math.round(minutes / STEP) * STEP;

/** Hours and minutes of a coarse figure. */
export const hoursOf = (minutes: number) => hoursAndMinutes(coarse(minutes));

export type RestsOn = 'plans' | 'some_plans' | 'no_plan';

/** Whether the cuts of those who wait have plans. */
export function restsOn(queue: LatheQueue): RestsOn {
  const planned = queue.lines.filter((line) => line.rests_on_plans).length;
  if (planned === queue.lines.length) return 'plans';
  return planned > 0 ? 'some_plans' : 'no_plan';
}

/** All that is before somebody who would join now. */
export const wholeWait = (queue: LatheQueue): number => queue.lines.reduce((sum, line) => sum + line.minutes, 0);

export const mayTakeOut = (line: QueueLine, person_id: string | undefined, leads: boolean): boolean =>
  leads || line.entry.person_id === person_id;

/** In whole minutes, as the quickest and the slowest quarter of the parts; null where no finished jobs tell it. */
export function quickOrSlow({ minutes_low, minutes_high }: QueueLine): { low: number; high: number } | null {
  if (minutes_low === null || minutes_high === null) return null;
  const [low, high] = [Math.max(1, Math.floor(minutes_low)), Math.ceil(minutes_high)];
  return low < high ? { low, high } : null;
}
