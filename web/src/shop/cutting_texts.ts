import type { CuttingRules } from '../api/schema';
import { numberOf } from './numbers';

export const CUTTING_NUMBERS = [
  'rough_max_um',
  'finish_min_um',
  'finish_max_um',
  'ra_target_um',
  'ra_factor',
  'mount_runout_max_um',
] as const;
export const CUTTING_BASES = ['depth_basis', 'ra_basis', 'mount_basis'] as const;
export type CuttingNumber = (typeof CUTTING_NUMBERS)[number];
export type CuttingBasis = (typeof CUTTING_BASES)[number];
export type CuttingTexts = Record<CuttingNumber | CuttingBasis, string>;
/** Depths, in micrometres: under one of them a figure is of another unit. */
const DEPTHS: readonly CuttingNumber[] = ['rough_max_um', 'finish_min_um', 'finish_max_um', 'mount_runout_max_um'];
export type CuttingWrong = 'number' | 'in_um' | 'least_over_most' | 'under_one' | 'basis';

export function cuttingTexts(rules: CuttingRules): CuttingTexts {
  const numbers = CUTTING_NUMBERS.map((name) => [name, String(rules[name])]);
  const bases = CUTTING_BASES.map((name) => [name, rules[name]]);
  return Object.fromEntries([...numbers, ...bases]) as CuttingTexts;
}

/** The rules as typed; null with what is wrong, field by field, while they are none. */
export function readCutting(texts: CuttingTexts): {
  rules: CuttingRules | null;
  wrong: Partial<Record<CuttingNumber | CuttingBasis, CuttingWrong>>;
} {
  const wrong: Partial<Record<CuttingNumber | CuttingBasis, CuttingWrong>> = {};
  const read = {} as Record<CuttingNumber, number>;
  for (const name of CUTTING_NUMBERS) {
    const value = numberOf(texts[name]);
    if (value === null || value <= 0) wrong[name] = 'number';
    else if (value < 1 && DEPTHS.includes(name)) wrong[name] = 'in_um';
    else read[name] = value;
  }
  for (const name of CUTTING_BASES) if (texts[name].trim() === '') wrong[name] = 'basis';
  if (read.finish_min_um > read.finish_max_um) wrong.finish_min_um = 'least_over_most';
  if (read.ra_factor < 1) wrong.ra_factor = 'under_one';
  if (Object.keys(wrong).length > 0) return { rules: null, wrong };
  const bases = Object.fromEntries(CUTTING_BASES.map((name) => [name, texts[name].trim()])) as Record<
    CuttingBasis,
    string
  >;
  return { rules: { ...read, ...bases }, wrong };
}
