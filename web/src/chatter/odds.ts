import type { Limit } from './model';

/** Share of a bell curve below z. Source: Abramowitz and Stegun 7.1.26, to 1.5e-7. */
export function below(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const tail =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
    Math.exp(-x * x);
  return z < 0 ? tail / 2 : 1 - tail / 2;
}

const Z95 = 1.959964;

/** How probably a depth lies over one limit: the band is that of the limit's logarithm. */
function over(depth_mm: number, { mm, low_mm, high_mm }: Limit): number {
  if (depth_mm <= 0) return 0;
  const u = Math.log(high_mm / low_mm) / (2 * Z95);
  return u > 0 ? below(Math.log(depth_mm / mm) / u) : Number(depth_mm > mm);
}

/** How probably a depth sings: as soon as one of the limits is passed, and they err together. */
export const sings = (depth_mm: number, limits: readonly Limit[]): number =>
  Math.max(0, ...limits.map((limit) => over(depth_mm, limit)));

export type Prospect = 'holds' | 'may' | 'sings';

/** What that says, where this much confidence is asked for. */
export function prospectOf(p: number, confidence: number): Prospect {
  if (p <= 1 - confidence) return 'holds';
  return p >= confidence ? 'sings' : 'may';
}

/** The same by the edges between which it may sing. */
export const prospectIn = (depth_mm: number, low_mm: number, high_mm: number): Prospect =>
  depth_mm <= low_mm ? 'holds' : depth_mm >= high_mm ? 'sings' : 'may';

/** The band of a limit that is left where as much confidence is asked for. */
export function edgesFor(limits: readonly Limit[], confidence: number, most_mm: number): [low: number, high: number] {
  const where = (p: number): number => {
    let [low, high] = [0, most_mm];
    if (sings(most_mm, limits) < p) return most_mm;
    for (let i = 0; i < 40; i += 1) {
      const middle = (low + high) / 2;
      if (sings(middle, limits) < p) low = middle;
      else high = middle;
    }
    return high;
  };
  return [where(1 - confidence), where(confidence)];
}

const UM_PER_MM = 1000;

/** The depths that a dial can be set to, from one mark on. */
export function depthsOf(mark_um: number, most_mm: number): number[] {
  const count = Math.max(1, Math.floor((most_mm * UM_PER_MM) / mark_um + 1e-9));
  return Array.from({ length: count }, (_, i) => ((i + 1) * mark_um) / UM_PER_MM);
}

/** The one of them that is nearest. */
export const nearest = (depths: readonly number[], mm: number): number =>
  depths.reduce((best, one) => (Math.abs(one - mm) < Math.abs(best - mm) ? one : best), depths[0] ?? mm);
