import type { OnRing } from './ring_geometry';

/**
 * Where things lie on a drum. Depths are millimetres in from the open edge; a diameter is read at an angle and is the
 * same half a turn on.
 */
const HALF_TURN = 180;

/** Both ends of each diameter, so that a round picture shows the gauge across. In the order given, far ends last. */
export const bothEnds = <P extends OnRing>(points: readonly P[]): P[] => [
  ...points,
  ...points.map((point) => ({ ...point, angle_deg: (point.angle_deg + HALF_TURN) % 360 })),
];

export interface DepthMean {
  depth_mm: number;
  mean_mm: number;
}

export type DrumShape = 'straight' | 'bell_mouth' | 'taper' | 'barrel' | 'waist';

/**
 * The shape along the depth, from the mean diameters: wider at the open edge (bell-mouth), wider inside (taper), wider
 * in the middle (barrel) or narrower there (waist). Less than `step_mm` is no shape.
 */
export function shapeOf(depths: readonly DepthMean[], step_mm: number): DrumShape {
  const sorted = [...depths].sort((a, b) => a.depth_mm - b.depth_mm);
  const open = sorted[0];
  const closed = sorted.at(-1);
  if (!open || !closed || sorted.length < 2) return 'straight';
  const between = sorted.slice(1, -1).map((one) => one.mean_mm);
  const barrel = Math.max(...between, Number.NEGATIVE_INFINITY) - Math.max(open.mean_mm, closed.mean_mm);
  const waist = Math.min(open.mean_mm, closed.mean_mm) - Math.min(...between, Number.POSITIVE_INFINITY);
  const ends = open.mean_mm - closed.mean_mm;
  if (barrel >= step_mm) return 'barrel';
  if (waist >= step_mm) return 'waist';
  if (Math.abs(ends) < step_mm) return 'straight';
  return ends > 0 ? 'bell_mouth' : 'taper';
}

/** How far in the picture of a drum reaches: its band where that is known, else a little beyond the deepest reading. */
export function drawnDepth(depths_mm: readonly number[], band_mm: number | null): number {
  const deepest = Math.max(...depths_mm, 0);
  return Math.max(band_mm ?? 0, 1.2 * deepest, 20);
}

export type Contact = 'full' | 'mid_shoe' | 'heel_and_toe';

/**
 * Gap between lining and drum at this angle from mid-shoe, as a share of the greatest: plane geometry of two circles
 * that touch at mid-shoe, or at both ends of the lining.
 */
export function gapShare(contact: Contact, from_middle_deg: number, arc_deg: number): number {
  if (contact === 'full') return 0;
  const half = (arc_deg / 2) * (Math.PI / 180);
  const at = Math.min(Math.abs(from_middle_deg * (Math.PI / 180)), half);
  const whole = 1 - Math.cos(half);
  if (whole <= 0) return 0;
  const share = (1 - Math.cos(at)) / whole;
  return contact === 'mid_shoe' ? share : 1 - share;
}
