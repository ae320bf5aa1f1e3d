import type { PermitNeed, PermitState } from '../api/schema';

export type Standing = 'leads' | 'stands' | 'withdrawn' | 'lapsed' | 'ready' | 'missing';

/** In one word, how somebody stands with the lathe. What ended the last permit is told before what is missing. */
export function standingOf(state: PermitState): Standing {
  if (state.leads) return 'leads';
  if (state.stands) return 'stands';
  if (state.permit?.withdrawn_at) return 'withdrawn';
  if (state.permit) return 'lapsed';
  return state.is_ready ? 'ready' : 'missing';
}

export type NextThing = 'safety_points' | 'measuring' | 'practice' | 'supervised_cuts' | 'ask_teacher' | 'nothing';

const ORDER: readonly PermitNeed['what'][] = [
  'safety_points',
  'measuring',
  'steady_hand',
  'practice',
  'supervised_cuts',
];

/** The one thing to do next: knowing comes before measuring, measuring before practice, and practice before cutting. */
export function nextThing(state: PermitState): NextThing {
  if (state.leads || state.stands) return 'nothing';
  const first = ORDER.find((what) => state.missing.some((one) => one.what === what));
  if (!first) return 'ask_teacher';
  return first === 'steady_hand' ? 'measuring' : first;
}

/** How many of the things asked for are met. */
export const metOf = (state: PermitState) => ({
  met: state.needs.length - state.missing.length,
  of: state.needs.length,
});

export const isMet = (need: PermitNeed) => need.done >= need.of;
/** Never more than asked for, so that a bar ends at its end. */
export const shareOf = (need: PermitNeed) => (need.of <= 0 ? 1 : Math.min(1, need.done / need.of));

const DAY_MS = 86_400_000;
const SOON_DAYS = 14;

/** Days for which a permit stands yet, its last day counted; both are calendar days. */
export const daysLeft = (lapses_on: string, today: string): number =>
  Math.round((Date.parse(`${lapses_on}T00:00:00Z`) - Date.parse(`${today}T00:00:00Z`)) / DAY_MS) + 1;

export const lapsesSoon = (state: PermitState, today: string): boolean =>
  state.stands && !!state.lapses_on && daysLeft(state.lapses_on, today) <= SOON_DAYS;
