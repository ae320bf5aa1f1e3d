import type { Band, Corner, Insert, Part, ShopView } from '../api/schema';
import { isDrum } from '../show/part_kind';

/** The bands whose range holds this diameter; a band without a range fits all. */
export function bandsFor(bands: readonly Band[], diameter_nm: number | null | undefined): Band[] {
  return bands.filter((band) => {
    if (!band.active) return false;
    if (diameter_nm === null || diameter_nm === undefined) return true;
    const least = band.least_diameter_nm ?? Number.NEGATIVE_INFINITY;
    const most = band.most_diameter_nm ?? Number.POSITIVE_INFINITY;
    return diameter_nm >= least && diameter_nm <= most;
  });
}

export interface Edge {
  insert: Insert;
  corner: Corner;
}

/** Corners that may cut, of one insert or of all in use: sharp ones before worn ones, the least used first. */
export function edgesOf(shop: Pick<ShopView, 'inserts' | 'corners'>, insert_id: string | null | undefined): Edge[] {
  const rank = { sharp: 0, worn: 1, chipped: 2 };
  return shop.corners
    .flatMap((corner) => {
      const insert = shop.inserts.find((one) => one.id === corner.insert_id);
      return insert?.active && (!insert_id || insert.id === insert_id) ? [{ insert, corner }] : [];
    })
    .sort(
      (a, b) => rank[a.corner.condition] - rank[b.corner.condition] || (a.corner.used_m ?? 0) - (b.corner.used_m ?? 0),
    );
}

/** Width of a drum's braking band, where it is known. */
export const bandWidth = (part: Part): number | null =>
  isDrum(part) && part.band_width?.nm ? part.band_width.nm / 1e6 : null;

/** The braking ring, where both its edges are known. */
export function ringOf(part: Part): { inner_mm: number; outer_mm: number } | null {
  const outer = part.outer_diameter?.nm;
  const inner = part.seat?.ring_inner?.nm;
  return outer && inner && inner < outer ? { inner_mm: inner / 2e6, outer_mm: outer / 2e6 } : null;
}
