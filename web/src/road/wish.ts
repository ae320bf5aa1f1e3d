import type { Part } from '../api/schema';
import { numberOf } from '../shop/numbers';
import { isDrum } from '../show/part_kind';

/** What may be said of the stop that is counted with, as it stands in the address. */
export const WISHES = {
  speed: { asked: 'speed_km_per_h', least: 10, most: 300, whole: false, per: 1 },
  stops: { asked: 'stops', least: 1, most: 200, whole: true, per: 1 },
  interval: { asked: 'interval_s', least: 1, most: 10_000, whole: false, per: 1 },
  share: { asked: 'axle_share', least: 5, most: 100, whole: false, per: 100 },
  cheek: { asked: 'cheek_thickness_mm', least: 0.5, most: 50, whole: false, per: 1 },
} as const;
export type WishName = keyof typeof WISHES;
const WISH_NAMES = Object.keys(WISHES) as WishName[];

/** What of the stop bears on this part: the heat of a stop is counted of discs alone, a cheek of vented ones. */
export const wishesFor = (part: Pick<Part, 'kind' | 'vented'>): WishName[] =>
  isDrum(part) ? [] : WISH_NAMES.filter((name) => name !== 'cheek' || part.vented);

/** The number typed for a wish, in the shop's own measure; null for nothing, 'wrong' for what cannot be. */
export function wished(name: WishName, text: string): number | null | 'wrong' {
  if (text.trim() === '') return null;
  const { least, most, whole, per } = WISHES[name];
  const value = numberOf(text);
  const good = value !== null && value >= least && value <= most && (!whole || Number.isInteger(value));
  return good ? value / per : 'wrong';
}

/** The question to the shop: what is good of what stands in the address. */
export function queryOf(typed: Readonly<Record<string, string>>): Record<string, number> {
  const query: Record<string, number> = {};
  for (const name of WISH_NAMES) {
    const value = wished(name, typed[name] ?? '');
    if (typeof value === 'number') query[WISHES[name].asked] = value;
  }
  return query;
}
