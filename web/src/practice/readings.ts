import type { ActDone, PracticeRun, Side } from './model';

/** What the acts of a run have told so far. */
export interface BenchReading {
  number: number;
  instrument_id: string;
  radius_mm: number;
  angle_deg: number;
  shown_mm: number;
  /** The disc had been turned by then. */
  cut: boolean;
}

export function readingsOf(acts: readonly ActDone[]): BenchReading[] {
  let cut = false;
  return acts.flatMap(({ number, act, outcome }) => {
    if (act.do === 'turns') cut = true;
    if (act.do !== 'measure' || typeof outcome.shown_mm !== 'number') return [];
    const { instrument_id, radius_mm, angle_deg } = act;
    return [{ number, instrument_id, radius_mm, angle_deg, shown_mm: outcome.shown_mm, cut }];
  });
}

export interface Spread {
  lowest_mm: number;
  highest_mm: number;
}

export function spreadOf(readings: readonly Pick<BenchReading, 'shown_mm'>[]): Spread | null {
  if (readings.length === 0) return null;
  const values = readings.map((one) => one.shown_mm);
  return { lowest_mm: Math.min(...values), highest_mm: Math.max(...values) };
}

/** One slow turn by hand under the indicator. */
export interface RunoutTrace {
  number: number;
  side: Side;
  radius_mm: number;
  points: { angle_deg: number; um: number }[];
  /** Which mounting it was read in, from 1. */
  mounting: number;
}

export function runoutsOf(acts: readonly ActDone[]): RunoutTrace[] {
  let mounting = 0;
  return acts.flatMap(({ number, act, outcome }) => {
    if (act.do === 'mount_part') mounting += 1;
    if (act.do !== 'read_runout') return [];
    const angles = outcome.angles_deg ?? [];
    const points = angles.map((angle_deg, i) => ({ angle_deg, um: outcome.shown_um?.[i] ?? 0 }));
    return [{ number, side: act.side, radius_mm: act.radius_mm, points, mounting }];
  });
}

export function peakToValley(trace: Pick<RunoutTrace, 'points'>): number {
  const values = trace.points.map((point) => point.um);
  return values.length > 0 ? Math.max(...values) - Math.min(...values) : 0;
}

/** How far the indicator came back from where it began, once round. */
export function closes(trace: Pick<RunoutTrace, 'points'>): number {
  const [first, last] = [trace.points[0], trace.points.at(-1)];
  return first && last ? Math.abs(last.um - first.um) : 0;
}

/** What the last look saw; null where nobody has looked. */
export function lastSeen(acts: readonly ActDone[]): string[] | null {
  const look = acts.filter(({ act }) => act.do === 'look').at(-1);
  return look ? (look.outcome.seen ?? []) : null;
}

export const isZeroed = (acts: readonly ActDone[], instrument_id: string): boolean =>
  acts.some(({ act }) => act.do === 'zero_micrometer' && act.instrument_id === instrument_id);

/** Whether the part was washed after the spindle last turned. */
export const isWashed = (acts: readonly ActDone[]): boolean =>
  acts.filter(({ act }) => act.do === 'wash' || act.do === 'turns').at(-1)?.act.do === 'wash';

export const lastMounted = (acts: readonly ActDone[]): string[] => {
  const act = acts.map((one) => one.act).filter((one) => one.do === 'mount_part');
  return act.at(-1)?.pieces ?? [];
};

export function refitRunout(acts: readonly ActDone[]): number | null {
  const refit = acts.filter(({ act }) => act.do === 'refit').at(-1);
  return refit?.outcome.hub_runout_um ?? null;
}

/** The acts with one more; turns that follow turns are kept as one, for there are thousands of them. */
export function withAct(acts: readonly ActDone[], done: ActDone): ActDone[] {
  const last = acts.at(-1);
  return done.act.do === 'turns' && last?.act.do === 'turns' ? [...acts.slice(0, -1), done] : [...acts, done];
}

/** Whether a run that was read knows less than the one that is held. */
export const isOlder = (read: Pick<PracticeRun, 'view'>, held: Pick<PracticeRun, 'view'> | null): boolean =>
  held !== null && read.view.acts < held.view.acts;
