import type { components } from '../api/types';

type Limits = components['schemas']['Limits'];
type TypedLength = components['schemas']['TypedLength'];

/** A figure as the API answers it: whole nanometres, and the last typed place. */
export interface Figure {
  nm: number;
  resolution_nm: number;
}

export type LimitName = keyof Limits;
export type LimitDoubtCode = 'machine_to_not_over_discard' | 'nominal_under_machine_to' | 'nominal_not_over_discard';

export interface LimitDoubt {
  code: LimitDoubtCode;
  /** The figure that the question is put beside. */
  field: LimitName;
  difference_nm: number;
}

const nanometres = (limit: Limits[LimitName]): number | undefined => limit?.value.nm ?? undefined;

/**
 * Which limits cannot all be right as they stand: of a rotor new is the thickest and discard the thinnest, of a drum new
 * is the least diameter and discard the largest.
 */
export function limitDoubts(limits: Limits, drum = false): LimitDoubt[] {
  const left = (limit: Limits[LimitName]) => {
    const nm = nanometres(limit);
    return nm !== undefined && drum ? -nm : nm;
  };
  const nominal = left(limits.nominal);
  const machineTo = left(limits.machine_to);
  const discard = left(limits.discard);
  const doubts: LimitDoubt[] = [];
  if (machineTo !== undefined && discard !== undefined && machineTo <= discard) {
    doubts.push({ code: 'machine_to_not_over_discard', field: 'machine_to', difference_nm: machineTo - discard });
  }
  if (nominal !== undefined && machineTo !== undefined && nominal < machineTo) {
    doubts.push({ code: 'nominal_under_machine_to', field: 'nominal', difference_nm: nominal - machineTo });
  }
  if (nominal !== undefined && discard !== undefined && nominal <= discard) {
    doubts.push({ code: 'nominal_not_over_discard', field: 'nominal', difference_nm: nominal - discard });
  }
  return doubts;
}

export type Agreement = 'agree' | 'rounding' | 'disagree';

export interface TwoUnits {
  agreement: Agreement;
  /** First less second. */
  difference_nm: number;
}

const roundTo = (nm: number, place_nm: number): number => Math.round(nm / place_nm) * place_nm;

/**
 * Whether two figures that a part or a page gives for one limit, each in its own unit, are one figure.
 * `agree`: either, rounded to the other's last place, is the other, both ways. `rounding`: one way only, so the coarser
 * figure may have been rounded from the finer. `disagree`: neither way.
 */
export function twoUnits(first: Figure, second: Figure): TwoUnits {
  const within = (from: Figure, to: Figure) => Math.abs(roundTo(from.nm, to.resolution_nm) - to.nm) < 1;
  const forth = within(first, second);
  const back = within(second, first);
  const difference_nm = first.nm - second.nm;
  if (difference_nm === 0 || (forth && back)) return { agreement: 'agree', difference_nm };
  // A finer figure always rounds to the coarser one from some value; what tells a slip is the other direction.
  return { agreement: forth || back ? 'rounding' : 'disagree', difference_nm };
}

/**
 * Machine-to that the shop's allowance would give, over the discard thickness of a rotor or under the discard diameter of
 * a drum; null where either is unknown.
 */
export function houseMachineTo(discard: Figure | null, house_allowance_nm: number | null, drum = false): number | null {
  if (!discard || house_allowance_nm === null) return null;
  return discard.nm + (drum ? -house_allowance_nm : house_allowance_nm);
}

/** The figure of a typed length, or null while it has not been read yet. */
export function figureOf(length: TypedLength | null | undefined): Figure | null {
  if (!length || length.nm === undefined) return null;
  return { nm: length.nm, resolution_nm: length.resolution_nm ?? 1 };
}
