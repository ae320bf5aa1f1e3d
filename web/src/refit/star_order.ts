/**
 * Order in which nuts are drawn up so that the part is pulled flat: each goes on opposite or nearly opposite the one
 * before, and the pairs of an even circle follow each other crosswise. Common practice, no source.
 * Studs count from 0 round the circle.
 */
export function starOrder(studs: number): number[] {
  if (studs < 2) return Array.from({ length: Math.max(studs, 0) }, (_, i) => i);
  if (studs % 2 === 1) {
    const step = (studs - 1) / 2;
    return Array.from({ length: studs }, (_, i) => (i * step) % studs);
  }
  const half = studs / 2;
  return starOrder(half).flatMap((pair) => [pair, pair + half]);
}

/** Shares of the torque in stages, the last one the whole of it. Common practice, no source. */
export const STAGES = [0.3, 0.6, 1] as const;

/** Each stage in the unit of the figure, to the nearest whole one; the last is the figure itself. */
export const torqueStages = (torque: number): number[] =>
  STAGES.map((share) => (share === 1 ? torque : Math.round(torque * share)));
