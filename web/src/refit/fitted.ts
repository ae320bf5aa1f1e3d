import type { BenchEvent } from '../guide/events';
import type { Shown } from '../measure/shown';

/** The tick by which the part is on its hub; null where it was never on, or was taken off again. */
export function tickedOn(events: readonly BenchEvent[]): BenchEvent | null {
  let on: BenchEvent | null = null;
  for (const one of events) {
    if (one.step !== 'part_on') continue;
    if (one.event === 'done') on ??= one;
    if (one.event === 'undone') on = null;
  }
  return on;
}

type Taken = Pick<Shown, 'taken_at' | 'received_at'>;

/**
 * Whether a reading tells of the part as it is on now: what was read before it went on is of another fitting. By the
 * shop's clock, where the shop has both; what still waits in this page is younger than anything that the shop has.
 */
export function isOfFitting(on: BenchEvent | null, { taken_at, received_at }: Taken): boolean {
  if (!on) return true;
  if (on.received_at === undefined) return received_at === undefined && Date.parse(taken_at) >= on.at_ms;
  return received_at === undefined || received_at > on.received_at;
}
