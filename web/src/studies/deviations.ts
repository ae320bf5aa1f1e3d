import type { StudyAnswer, StudyGroup, Unit } from '../api/schema';
import { niceStep } from '../pictures/ladder';

/** Readings and means as the pictures show them: off what each part is, so that parts of any size fit on one axis. */
export interface Deviation {
  part_id: string;
  person_id: string;
  um: number;
}

export interface Deviations {
  /** What they are taken from: the references, or where a part has none, the mean of its readings. */
  from: 'reference' | 'mean';
  parts: string[];
  people: string[];
  readings: Deviation[];
  means: Deviation[];
}

const NM_PER_UM = 1000;

const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;

/** In the order of the study's parts and people; who is not through has none. */
export function deviationsOf(
  answer: Pick<StudyAnswer, 'people' | 'cells' | 'readings'>,
  study: { reference_part_ids: readonly string[]; person_ids: readonly string[] },
): Deviations {
  const inCells = new Set(answer.cells.map((cell) => cell.reference_part_id));
  const parts = study.reference_part_ids.filter((id) => inCells.has(id));
  const counted = new Set(answer.cells.map((cell) => cell.person_id));
  const people = study.person_ids.filter((id) => counted.has(id));
  const references = new Map(
    answer.people.flatMap((one) => one.errors.map((error) => [error.reference_part_id, error.reference_um] as const)),
  );
  const from = parts.every((id) => references.has(id)) ? 'reference' : 'mean';
  const base = new Map(
    parts.map((id) => {
      const cells = answer.cells.filter((cell) => cell.reference_part_id === id);
      return [id, from === 'reference' ? (references.get(id) ?? 0) : mean(cells.map((cell) => cell.mean_um))] as const;
    }),
  );
  const off = (part_id: string, person_id: string, um: number): Deviation => ({
    part_id,
    person_id,
    um: um - (base.get(part_id) ?? 0),
  });
  return {
    from,
    parts,
    people,
    readings: answer.readings.flatMap((one) =>
      base.has(one.reference_part_id) && one.value.nm !== undefined
        ? [off(one.reference_part_id, one.person_id, one.value.nm / NM_PER_UM)]
        : [],
    ),
    means: answer.cells.map((cell) => off(cell.reference_part_id, cell.person_id, cell.mean_um)),
  };
}

export interface Axis {
  low: number;
  high: number;
  step: number;
  ticks: number[];
}

const MOST_TICKS = 7;

/** An axis over all values and nought, with round marks. */
export function axisOver(values: readonly number[], most = MOST_TICKS): Axis {
  const finite = [0, ...values.filter(Number.isFinite)];
  const least = Math.min(...finite);
  const greatest = Math.max(...finite);
  const step = niceStep(greatest - least || 1, most - 1);
  const first = Math.floor(least / step);
  const last = Math.max(first + 1, Math.ceil(greatest / step));
  const ticks = Array.from({ length: last - first + 1 }, (_, k) => Number(((first + k) * step).toPrecision(12)));
  return { low: first * step, high: last * step, step, ticks };
}

/** What stands at a mark of an axis: with as many places as its step has, so that no two marks read the same. */
export const tickText = (value: number, { step }: Pick<Axis, 'step'>): string => {
  const places = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return `${value < 0 ? '−' : ''}${Math.abs(value).toFixed(places)}`;
};

/** Where one of several stands in its part's column, from -0.5 to 0.5 of it: side by side, never one on another. */
export const shiftOf = (index: number, count: number): number => (count < 2 ? 0 : ((index + 0.5) / count - 0.5) * 0.8);

export interface Off {
  value: number;
  interval: { low95: number; high95: number } | null;
  of: 'bias' | 'offset';
}

/** How far off somebody is: from the references where there are some, else from the others. */
export function offOf(group: StudyGroup): Off | null {
  if (group.bias_um !== null) return { value: group.bias_um, interval: group.bias_interval_um ?? null, of: 'bias' };
  if (group.offset_um !== null)
    return { value: group.offset_um, interval: group.offset_interval_um ?? null, of: 'offset' };
  return null;
}

const ALPHA = 0.05;

/** Whether being off, or being spread, is what to work at first. Neither where neither goes beyond chance. */
export function biasAgainstSpread(group: StudyGroup): 'bias' | 'spread' | 'neither' {
  const off = offOf(group);
  const p = off?.of === 'bias' ? group.bias_p : group.offset_p;
  const isOff = off !== null && p !== null && p < ALPHA;
  const isSpread = group.spread_p !== null && group.spread_p < ALPHA && (group.spread_ratio ?? 0) > 1;
  if (!isOff && !isSpread) return 'neither';
  if (isOff && Math.abs(off.value) > (group.repeatability_sd_um ?? 0)) return 'bias';
  return isSpread ? 'spread' : 'bias';
}

/** Marks of the share of a tolerance. Common practice, no source. */
export const FINE_PERCENT = 10;
export const COARSE_PERCENT = 30;

export type Fineness = 'fine' | 'middle' | 'coarse';

export const finenessOf = (percent: number): Fineness =>
  percent < FINE_PERCENT ? 'fine' : percent <= COARSE_PERCENT ? 'middle' : 'coarse';

/** Whether an interval leaves open on which side of a mark the share lies. */
export const spansMark = (interval: { low95: number; high95: number } | null | undefined): boolean =>
  interval ? finenessOf(interval.low95) !== finenessOf(interval.high95) : false;

const MICROMETRES_PER_INCH = 25_400;

/** With as many places as tell something; a true minus. */
export function digits(value: number, sign = false): string {
  const size = Math.abs(value);
  const text = size.toFixed(size < 10 ? 1 : 0);
  if (Number(text) === 0) return text;
  return value < 0 ? `−${text}` : sign ? `+${text}` : text;
}

export function inchDigits(um: number): string {
  const inches = Math.abs(um) / MICROMETRES_PER_INCH;
  return `${um < 0 && inches >= 0.000_005 ? '−' : ''}${inches.toFixed(5)}`;
}

const signOf = (um: number, sign: boolean) => (sign && um > 0 ? '+' : '');

/** A difference or a spread in the unit of the shop, without its name: micrometres where millimetres are worked in. */
export const digitsIn = (unit: Unit, um: number, sign = false): string =>
  unit === 'mm' ? digits(um, sign) : `${signOf(um, sign)}${inchDigits(um)}`;
export const fineUnit = (unit: Unit): string => (unit === 'mm' ? 'µm' : 'in');

const SIZE_PLACES = { mm: 4, in: 6 };

/** A size in the unit of the shop, without its name: the last place is about a tenth of a micrometre. */
export const sizeDigits = (unit: Unit, um: number): string =>
  (unit === 'mm' ? um / 1000 : um / MICROMETRES_PER_INCH).toFixed(SIZE_PLACES[unit]);

/** Normalised errors with two places. */
export const twoPlaces = (value: number) => `${value < 0 && value <= -0.005 ? '−' : ''}${Math.abs(value).toFixed(2)}`;

/** Probabilities of a table. */
export const pText = (p: number) => (p < 0.0001 ? '< 0.0001' : p.toFixed(4));
