import type { RoadAdvice } from '../api/schema';

export type RoadPart = RoadAdvice['parts'][number];
export type RoadDisc = NonNullable<RoadPart['heat_before']>;
export type Which = 'new' | 'before' | 'after' | 'discard';

/** One disc in the stop, as a row of the picture: how much hotter its face gets, between what is not known. */
export interface HeatRow {
  which: Which;
  disc: RoadDisc;
  rise_k: number;
  low_k: number;
  high_k: number;
}

/** The discs that are known, the thickest first. */
export function heatRows(part: RoadPart): HeatRow[] {
  const discs: readonly (readonly [Which, RoadDisc | null])[] = [
    ['new', part.heat_new],
    ['before', part.heat_before],
    ['after', part.heat_after],
    ['discard', part.heat_discard],
  ];
  return discs.flatMap(([which, disc]) => {
    if (!disc) return [];
    const rise_k = disc.stop.rise_surface_max_k;
    const band = disc.stop.rise_surface_max_band_k;
    return [{ which, disc, rise_k, low_k: band?.low ?? rise_k, high_k: band?.high ?? rise_k }];
  });
}

/** The hottest of the face in each of several stops, as a range. */
export interface Heating {
  which: Which;
  stops: { number: number; low_c: number; high_c: number }[];
  last: { low_c: number; high_c: number };
}

export function heatingOf(which: Which, disc: RoadDisc | null): Heating | null {
  const stops = (disc?.repeats.stops ?? []).map((stop, i) => ({
    number: i + 1,
    low_c: stop.surface_max_c.low,
    high_c: stop.surface_max_c.high,
  }));
  const last = stops.at(-1);
  return last ? { which, stops, last: { low_c: last.low_c, high_c: last.high_c } } : null;
}
