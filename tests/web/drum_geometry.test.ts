import { describe, expect, it } from 'vitest';
import { bothEnds, drawnDepth, gapShare, shapeOf } from '../../web/src/pictures/drum_geometry';
import { pointAt, sectors } from '../../web/src/pictures/ring_geometry';

const depths = (...means: number[]) => means.map((mean_mm, i) => ({ depth_mm: 10 + 20 * i, mean_mm }));

describe('a diameter on a round picture', () => {
  const four = [0, 45, 90, 135].map((angle_deg, point) => ({ circle: 0, point, angle_deg }));

  it('has two ends half a turn apart, and both are the same point', () => {
    const ends = bothEnds(four);
    expect(ends.map((one) => one.angle_deg)).toEqual([0, 45, 90, 135, 180, 225, 270, 315]);
    expect(ends.map((one) => one.point)).toEqual([0, 1, 2, 3, 0, 1, 2, 3]);
  });

  it('shares the circle evenly with the others, each end half of its piece', () => {
    expect(sectors(bothEnds(four).map((one) => one.angle_deg)).map((one) => one.to_deg - one.from_deg)).toEqual(
      Array(8).fill(45),
    );
  });

  it('is found by a tap at either end', () => {
    const ring = { inner: 46, outer: 84, turning: 'clockwise' as const };
    const ends = bothEnds(four);
    expect(pointAt({ x: 0, y: -65 }, ends, 1, ring)?.point).toBe(0);
    expect(pointAt({ x: 0, y: 65 }, ends, 1, ring)?.point).toBe(0);
    expect(pointAt({ x: -46, y: 46 }, ends, 1, ring)?.point).toBe(1);
  });
});

describe('the shape of a drum along its depth', () => {
  it('is a bell-mouth when it is wider at the open edge, a taper when it is wider inside', () => {
    expect(shapeOf(depths(254.2, 254.1), 0.01)).toBe('bell_mouth');
    expect(shapeOf(depths(254.1, 254.2), 0.01)).toBe('taper');
  });

  it('is a barrel when the middle is wider than both edges, a waist when it is narrower', () => {
    expect(shapeOf(depths(254.1, 254.2, 254.15), 0.01)).toBe('barrel');
    expect(shapeOf(depths(254.2, 254.1, 254.15), 0.01)).toBe('waist');
  });

  it('is straight where the gauge cannot tell the depths apart, and with one depth alone', () => {
    expect(shapeOf(depths(254.1, 254.104), 0.01)).toBe('straight');
    expect(shapeOf(depths(254.1), 0.01)).toBe('straight');
    expect(shapeOf([], 0.01)).toBe('straight');
  });

  it('goes by the depths, in whatever order they come', () => {
    expect(shapeOf([...depths(254.2, 254.1)].reverse(), 0.01)).toBe('bell_mouth');
  });
});

describe('a shoe against its drum', () => {
  it('that touches at mid-shoe leaves its whole gap at heel and toe alike', () => {
    expect(gapShare('mid_shoe', 0, 120)).toBe(0);
    expect(gapShare('mid_shoe', 60, 120)).toBeCloseTo(1);
    expect(gapShare('mid_shoe', -60, 120)).toBeCloseTo(1);
  });

  it('that touches at heel and toe leaves its whole gap in the middle', () => {
    expect(gapShare('heel_and_toe', 0, 120)).toBe(1);
    expect(gapShare('heel_and_toe', 60, 120)).toBeCloseTo(0);
  });

  it('that fits leaves none', () => {
    expect(gapShare('full', 37, 120)).toBe(0);
  });

  // Two circles of 125.0 and 124.5 mm that touch at mid-shoe: the gap along the drum's radius, worked out in full.
  it('keeps to the gap of two circles within a hundredth of it', () => {
    const [drum, lining] = [125, 124.5];
    const gap = (deg: number) => {
      const phi = (deg * Math.PI) / 180;
      const offset = drum - lining;
      const far = offset * Math.cos(phi) + Math.sqrt(lining ** 2 - (offset * Math.sin(phi)) ** 2);
      return drum - far;
    };
    for (const deg of [10, 30, 45, 60]) expect(gapShare('mid_shoe', deg, 120)).toBeCloseTo(gap(deg) / gap(60), 2);
  });
});

describe('the drawing of a drum', () => {
  it('reaches as deep as its band, or beyond the deepest reading where the band is unknown', () => {
    expect(drawnDepth([10, 40], 55)).toBe(55);
    expect(drawnDepth([10, 50], null)).toBe(60);
    expect(drawnDepth([10, 50], 40)).toBe(60);
  });
});
