import type { MeasuringPlan, Part, TypedLength, Unit } from '../api/schema';
import { typed } from '../controls/length_field';

export type LengthName = 'hub_reading_diameter' | 'outer_diameter';
export const LENGTHS: readonly LengthName[] = ['hub_reading_diameter', 'outer_diameter'];

/** What was touched here and is not kept yet; the rest follows what is stored. */
export interface TouchedSetup {
  studs?: number;
  plan: Partial<MeasuringPlan>;
  lengths: Partial<Record<LengthName, { text?: string; unit?: Unit }>>;
}

export const UNTOUCHED: TouchedSetup = { plan: {}, lengths: {} };

export interface ShownLength {
  text: string;
  unit: Unit;
}

export function shownLength(part: Part, name: LengthName, touched: TouchedSetup, start: Unit): ShownLength {
  const stored = part[name];
  const { text, unit } = touched.lengths[name] ?? {};
  return { text: text ?? stored?.text ?? '', unit: unit ?? stored?.unit ?? start };
}

/** Those of this wheel, else as counted at another one of the job. */
export const shownStuds = (part: Part, all: readonly Part[], touched: TouchedSetup): number | null =>
  touched.studs ?? part.studs ?? all.find((one) => one.studs)?.studs ?? null;

/**
 * A wheel of the job as it is to be kept. On the wheel that was typed at, an emptied field is unknown again; what is
 * known of another wheel stays as it is, and only what is not known there is filled.
 */
export function withSetup(of: Part, at: Part, all: readonly Part[], touched: TouchedSetup, start: Unit): Part {
  const next: Part = { ...of, studs: shownStuds(at, all, touched) ?? of.studs ?? null };
  for (const name of LENGTHS) next[name] = lengthOf(of, at, name, touched, start);
  return next;
}

function lengthOf(of: Part, at: Part, name: LengthName, touched: TouchedSetup, start: Unit): TypedLength | null {
  const old = of[name] ?? null;
  if (old && of.id !== at.id) return old;
  const { text, unit } = shownLength(at, name, touched, start);
  if (text.trim() === '') return null;
  return old && old.text === text.trim() && old.unit === unit ? old : typed(text, unit);
}
