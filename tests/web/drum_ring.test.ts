import { expect, it } from 'vitest';
import { ringOf } from '../../web/src/verdict/diameters';

it('the ring of a drum shows the diameters as they are judged, each at its depth and angle', () => {
  const depth = (depth_mm: number) => ({ depth_mm }) as never;
  const spot = (depth_mm: number, angle_deg: number, mean_mm: number) => ({ depth_mm, angle_deg, mean_mm, count: 1 });
  const figures = {
    depths: [depth(10), depth(40)],
    points: [spot(10, 0, 254.1), spot(10, 135, 254.12), spot(40.0000001, 45, 254.05), spot(99, 0, 1)],
  };
  expect(ringOf(figures, 4)).toEqual([
    { circle: 0, point: 0, angle_deg: 0, value_mm: 254.1, state: 'saved' },
    { circle: 0, point: 3, angle_deg: 135, value_mm: 254.12, state: 'saved' },
    { circle: 1, point: 1, angle_deg: 45, value_mm: 254.05, state: 'saved' },
  ]);
  expect(ringOf(null, 4)).toEqual([]);
});
