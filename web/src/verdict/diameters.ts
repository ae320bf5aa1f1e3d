import type { DrumFigures } from '../measure/drum_answer';
import type { RingPoint } from '../pictures/ring';

const SAME_DEPTH_MM = 1e-3;
const HALF_TURN_DEG = 180;

/**
 * The diameters as the shop judges them, each the mean of its readings less the zero error and brought to 20 °C, at
 * their places on the ring: a circle for each depth from the open edge in, the points as they count over half a turn.
 */
export function ringOf(figures: Pick<DrumFigures, 'points' | 'depths'> | null, points: number): RingPoint[] {
  return (figures?.points ?? []).flatMap(({ depth_mm, angle_deg, mean_mm }) => {
    const circle = figures?.depths.findIndex((one) => Math.abs(one.depth_mm - depth_mm) < SAME_DEPTH_MM) ?? -1;
    const point = Math.round((angle_deg * points) / HALF_TURN_DEG);
    return circle < 0 ? [] : [{ circle, point, angle_deg, value_mm: mean_mm, state: 'saved' as const }];
  });
}
