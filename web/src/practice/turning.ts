import type { Act, BenchView } from './model';

/** How much faster than the real bench the spindle turns on. */
export type Pace = '1' | '5' | '20';
export const PACES: readonly Pace[] = ['1', '5', '20'];

/** About four steps a second. */
export const STEP_MS = 250;
const MOST_TURNS = 200;
const LEAST_TURNS = 0.01;

/** Turns of one step at this speed and pace. */
export function turnsOf(rpm: number, pace: Pace, step_ms = STEP_MS): number {
  const turns = (rpm * Number(pace) * step_ms) / 60_000;
  return Math.min(MOST_TURNS, Math.max(LEAST_TURNS, Number(turns.toFixed(4))));
}

/**
 * Whether time goes on: the spindle turns, the page is seen, the run goes on, nothing is on its way to the shop, and the
 * last thing that the bench refused was not to turn on.
 */
export function goesOn(
  view: Pick<BenchView, 'rpm' | 'ended'>,
  seen: boolean,
  idle: boolean,
  refused: Act['do'] | null,
): boolean {
  return view.rpm > 0 && !view.ended && seen && idle && refused !== 'turns';
}

/** What may always be done, and is never dropped behind a refusal. */
export const isStop = (act: Act): boolean => act.do === 'walk_away' || (act.do === 'spindle' && act.rpm === 0);

/** Whether the spindle turns once all that is on its way has been done. */
export function turnsAfter(rpm: number, pending: readonly Act[]): boolean {
  const last = pending.filter((act) => act.do === 'spindle').at(-1);
  return (last ? last.rpm : rpm) > 0;
}

/** How long the feed still takes to the outer edge on the bench's own clock, in seconds; null where nothing feeds. */
export function toEdge_s(
  view: Pick<BenchView, 'rpm' | 'feed_mm_per_rev' | 'radius_mm'>,
  outer_mm: number,
): number | null {
  if (view.rpm <= 0 || view.feed_mm_per_rev <= 0) return null;
  const way = outer_mm - view.radius_mm;
  return way <= 0 ? null : (60 * way) / (view.rpm * view.feed_mm_per_rev);
}
