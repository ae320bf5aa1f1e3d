import type { ForeseenPass, Pass, PlannedPass } from '../api/schema';
import type { Attempt } from './sequence';

export interface Marks {
  outboard: number;
  inboard: number;
}

export type Cutting = Pick<Pass, 'plan_id' | 'outboard_marks' | 'inboard_marks' | 'outcome'>;

/**
 * What the dials took in all. A pass that was stopped and begun again at the same depth counts once: the dials were
 * turned for it once. A new plan begins a new count.
 */
export function taken(passes: readonly Cutting[]): Marks {
  const sum: Marks = { outboard: 0, inboard: 0 };
  for (const [i, pass] of passes.entries()) {
    const next = passes[i + 1];
    const again = pass.outcome === 'stopped' && next !== undefined && next.plan_id === pass.plan_id;
    if (again) continue;
    sum.outboard += pass.outboard_marks;
    sum.inboard += pass.inboard_marks;
  }
  return sum;
}

/** Marks that the dials are turned by now, and where they stand then, counted from the last touch. */
export function dialsAt(passes: readonly PlannedPass[], attempt: Attempt, attempts: readonly Attempt[]) {
  const touched = attempts.filter((one) => one.from === 'touch' && one.number <= attempt.number).at(-1);
  const first = touched?.index ?? 0;
  const stand: Marks = { outboard: 0, inboard: 0 };
  for (const pass of passes.slice(first, attempt.index + 1)) {
    stand.outboard += pass.outboard_marks;
    stand.inboard += pass.inboard_marks;
  }
  const here = passes[attempt.index];
  const turn: Marks = {
    outboard: attempt.again ? 0 : (here?.outboard_marks ?? 0),
    inboard: attempt.again ? 0 : (here?.inboard_marks ?? 0),
  };
  return { turn, stand };
}

export interface Size {
  mm: number;
  u_um: number;
}

/** What a pass is to leave, with its standard uncertainty: the thickness of a rotor, the diameter of a drum. */
export function sizeAfter(pass: ForeseenPass): Size | null {
  const [mm, u_um] =
    pass.diameter_after_mm == null
      ? [pass.thickness_after_mm, pass.u_thickness_after_um]
      : [pass.diameter_after_mm, pass.u_diameter_after_um];
  return mm == null || u_um == null ? null : { mm, u_um };
}

export const cutsFace = (passes: readonly PlannedPass[], face: 'outboard' | 'inboard'): boolean =>
  passes.some((pass) => pass[`${face}_marks`] > 0);

/** Which corner cuts which face, as a step's detail keeps it. */
export interface Corners {
  outboard: string | null;
  inboard: string | null;
}

export const cornersText = ({ outboard, inboard }: Corners): string =>
  [outboard ? `outboard ${outboard}` : '', inboard ? `inboard ${inboard}` : ''].filter(Boolean).join(', ');

export function cornersOf(text: string): Corners {
  const of = (face: string) => new RegExp(`${face} ([0-9a-f-]{36})`).exec(text)?.[1] ?? null;
  return { outboard: of('outboard'), inboard: of('inboard') };
}

type Running = Pick<ForeseenPass, 'time_s' | 'rpm' | 'feed_mm_per_rev'>;

/**
 * How far the tools are past the edge where they began, by the clock: they start half the approach before it, and end
 * half of it beyond the other edge, `width_mm` on.
 */
export function toolTravel(width_mm: number, pass: Running, elapsed_s: number): number {
  const travel = (pass.time_s * pass.rpm * pass.feed_mm_per_rev) / 60;
  const approach = Math.max(0, travel - width_mm);
  const gone = Math.min((elapsed_s * pass.rpm * pass.feed_mm_per_rev) / 60, travel);
  return gone - approach / 2;
}

/** Where the tools are by the clock, as a radius of the ring. */
export function toolRadius(ring: { inner_mm: number; outer_mm: number }, pass: Running, elapsed_s: number): number {
  return ring.inner_mm + toolTravel(ring.outer_mm - ring.inner_mm, pass, elapsed_s);
}

/** Minutes and seconds: "7:05". */
export function clockText(seconds: number): string {
  const whole = Math.floor(Math.abs(seconds) + 1e-6);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}
