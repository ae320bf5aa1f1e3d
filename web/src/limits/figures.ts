import type { Limit, Limits, Part, Unit } from '../api/schema';
import { length, roughness, typedLength } from '../show/length';
import { isDrum } from '../show/part_kind';
import { words } from '../words';
import type { Figure, LimitName } from './limit_doubts';

const SIZES = ['discard', 'machine_to', 'nominal'] as const;
const OF_A_DISC: readonly LimitName[] = [...SIZES, 'variation', 'runout', 'scoring', 'finish_ra'];
const OF_A_DRUM: readonly LimitName[] = [...SIZES, 'out_of_round', 'taper', 'scoring', 'finish_ra'];

/** The figures in the order in which they are asked. */
export const limitNamesOf = (part: Pick<Part, 'kind'>): readonly LimitName[] => (isDrum(part) ? OF_A_DRUM : OF_A_DISC);

/** The three that are thicknesses of the rotor, or diameters of the drum, and stand on the picture. */
export const isSize = (name: LimitName) => name === 'nominal' || name === 'machine_to' || name === 'discard';

const WIDE_MM: [number, number] = [50, 1500];

/** Where a figure makes sense, in mm: asked about outside it, never converted. Common practice, no source. */
export const plausibleMm = (name: LimitName, drum: boolean): [number, number] =>
  drum && isSize(name) ? WIDE_MM : PLAUSIBLE_MM[name];

const PLAUSIBLE_MM: Record<LimitName, [number, number]> = {
  nominal: [4, 60],
  machine_to: [4, 60],
  discard: [4, 60],
  variation: [0.001, 0.5],
  runout: [0.005, 1],
  scoring: [0.01, 3],
  finish_ra: [0.0001, 0.02],
  out_of_round: [0.005, 1],
  taper: [0.005, 1],
};

/** A limit as it was typed. */
export function showLimit(name: LimitName, limit: Limit | null | undefined): string {
  if (!limit) return words.limits.unknown;
  const { nm, unit } = limit.value;
  if (name === 'finish_ra' && nm !== undefined) return roughness(nm, unit);
  return typedLength(limit.value);
}

/** A figure in this unit to its own last place. */
export const showFigure = (figure: Figure, unit: Unit) =>
  length(figure.nm, { unit, resolution_nm: figure.resolution_nm });

/**
 * Roughness is typed in micrometres or microinches; the shop is sent a length. Whoever writes a unit behind it means
 * that one.
 */
export function finishText(text: string, unit: Unit): string {
  const plain = text.trim().replace(',', '.');
  const micro = /^([0-9]*\.?[0-9]+)\s*(?:[uµμ]in|microinch(?:es)?)$/i.exec(plain);
  const bare = /^[0-9]*\.?[0-9]+$/.test(plain);
  if (micro) return microinches(micro[1] ?? '');
  if (bare) return unit === 'in' ? microinches(plain) : `${plain} um`;
  return text.trim();
}

/** "60" to "0.000060 in", with the places that were typed. */
function microinches(digits: string): string {
  const [whole = '', part = ''] = digits.split('.');
  const shifted = whole.padStart(7, '0');
  return `${shifted.slice(0, -6).replace(/^0+(?=[0-9])/, '')}.${shifted.slice(-6)}${part} in`;
}

const OF_ANY: readonly LimitName[] = [...new Set([...OF_A_DISC, ...OF_A_DRUM])];

export const sameLimits = (a: Limits, b: Limits) =>
  OF_ANY.every((name) => JSON.stringify(a[name] ?? null) === JSON.stringify(b[name] ?? null));
