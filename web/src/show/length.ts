import type { TypedLength, Unit } from '../api/schema';

/**
 * Lengths as people read them here: a point before the decimals, a true minus sign, as many decimals as the gauge can
 * tell. What was typed is read by the shop alone, never here.
 */
export const NM_PER_MM = 1_000_000;
export const NM_PER_IN = 25_400_000;
const MOST_DECIMALS = 6;

const step = (unit: Unit) => (unit === 'mm' ? NM_PER_MM : NM_PER_IN);

/** The fewest decimals of `unit` whose last place still tells neighbours at this resolution apart. */
export function decimalsFor(unit: Unit, resolution_nm: number): number {
  const wanted = Math.max(resolution_nm, 1) * (1 + 1e-9);
  for (let decimals = 0; decimals < MOST_DECIMALS; ++decimals) {
    if (step(unit) / 10 ** decimals <= wanted) return decimals;
  }
  return MOST_DECIMALS;
}

function fixed(value: number, decimals: number, sign: boolean): string {
  const text = Math.abs(value).toFixed(decimals);
  const zero = Number(text) === 0;
  if (value < 0 && !zero) return `−${text}`;
  return sign && !zero ? `+${text}` : text;
}

export interface HowShown {
  unit: Unit;
  /** Smallest step of the gauge. */
  resolution_nm: number;
  /** A plus before what is over zero, for deviations. */
  sign?: boolean;
}

/** Without the unit: "21.234". */
export function lengthDigits(nm: number, { unit, resolution_nm, sign = false }: HowShown): string {
  return fixed(nm / step(unit), decimalsFor(unit, resolution_nm), sign);
}

/** With the unit: "21.234 mm". */
export function length(nm: number, how: HowShown): string {
  return `${lengthDigits(nm, how)} ${how.unit}`;
}

export const lengthOfMm = (mm: number, how: HowShown) => length(mm * NM_PER_MM, how);
export const digitsOfMm = (mm: number, how: HowShown) => lengthDigits(mm * NM_PER_MM, how);

/** What was typed, in the unit and to the place in which it was typed; before the shop has read it, as it stands. */
export function typedLength(typed: TypedLength): string {
  const { nm, resolution_nm } = typed;
  if (nm === undefined || resolution_nm === undefined) return `${typed.text} ${typed.unit}`;
  return isDecimalPlace(typed.unit, resolution_nm) ? length(nm, { unit: typed.unit, resolution_nm }) : typed.text;
}

/** A fraction's step is no decimal place; such a reading is shown as it was typed. */
function isDecimalPlace(unit: Unit, resolution_nm: number): boolean {
  for (let decimals = -1; decimals <= MOST_DECIMALS; ++decimals) {
    if (Math.abs(step(unit) / 10 ** decimals - resolution_nm) < 0.6) return true;
  }
  return false;
}

/** Roughness: micrometres, or microinches where inches are worked in. */
export function roughness(nm: number, unit: Unit): string {
  return unit === 'mm' ? `${fixed(nm / 1000, 2, false)} µm` : `${fixed(nm / 25.4, 0, false)} µin`;
}

/** A probability as people say it; never 0 or 100 unless it is exactly that. */
export function percent(p: number): string {
  if (p > 0 && p < 0.01) return 'under 1 %';
  if (p < 1 && p > 0.99) return 'over 99 %';
  return `${Math.round(100 * p)} %`;
}

export function angle(degrees: number): string {
  return `${Number.isInteger(degrees) ? degrees : degrees.toFixed(1)}°`;
}
