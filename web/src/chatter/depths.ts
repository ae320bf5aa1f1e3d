export type Prospect = 'holds' | 'may' | 'sings';

/** What is said of a depth, by the edges between which it may sing. */
export const prospectIn = (depth_mm: number, quiet_mm: number, sings_mm: number): Prospect =>
  depth_mm <= quiet_mm ? 'holds' : depth_mm >= sings_mm ? 'sings' : 'may';

const UM_PER_MM = 1000;

/** The depths that a dial can be set to, from one mark on. */
export function depthsOf(mark_um: number, most_mm: number): number[] {
  const count = Math.max(1, Math.floor((most_mm * UM_PER_MM) / mark_um + 1e-9));
  return Array.from({ length: count }, (_, i) => ((i + 1) * mark_um) / UM_PER_MM);
}

/** The one of them that is nearest. */
export const nearest = (depths: readonly number[], mm: number): number =>
  depths.reduce((best, one) => (Math.abs(one - mm) < Math.abs(best - mm) ? one : best), depths[0] ?? mm);
