import { numberOf } from '../shop/numbers';

/** Speeds and masses as they are told here, and as the shop keeps them. */
export type SpeedUnit = 'km/h' | 'mph';
export type MassUnit = 'kg' | 'lb';

const KM_PER_MILE = 1.609344;
const KG_PER_LB = 0.45359237;
const MOST_DIGITS = 6;

const tidy = (value: number) => Number(value.toFixed(MOST_DIGITS));

export const kmPerHour = (value: number, unit: SpeedUnit) => tidy(unit === 'mph' ? value * KM_PER_MILE : value);
export const kilograms = (value: number, unit: MassUnit) => tidy(unit === 'lb' ? value * KG_PER_LB : value);

export interface Told<U> {
  text: string;
  unit: U;
}

/**
 * A stored value in the unit that it was told in: the other unit only where that makes it a number with one decimal and
 * the stored one is none, so that what is shown and saved again is what was stored.
 */
function told<U>(value: number | null | undefined, own: U, other: U, per_other: number): Told<U> | null {
  if (value === null || value === undefined) return null;
  const in_other = Number((value / per_other).toFixed(1));
  const plain = Number(value.toFixed(1)) === value;
  if (!plain && tidy(in_other * per_other) === value) return { text: String(in_other), unit: other };
  return { text: String(tidy(value)), unit: own };
}

export const toldSpeed = (km_per_h: number | null | undefined) => told<SpeedUnit>(km_per_h, 'km/h', 'mph', KM_PER_MILE);
export const toldMass = (kg: number | null | undefined) => told<MassUnit>(kg, 'kg', 'lb', KG_PER_LB);

/** What is typed where a number over nought may stand: null for nothing, 'wrong' for what is none. */
export function typedNumber(text: string): number | null | 'wrong' {
  if (text.trim() === '') return null;
  const value = numberOf(text);
  return value === null || value <= 0 ? 'wrong' : value;
}
