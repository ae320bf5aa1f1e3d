import { describe, expect, it } from 'vitest';
import { angleOf, bands, pointAt, sectors, shade, spotAt, wedge } from '../../web/src/pictures/ring_geometry';

const near = (spot: { x: number; y: number }, x: number, y: number) => {
  expect(spot.x).toBeCloseTo(x, 9);
  expect(spot.y).toBeCloseTo(y, 9);
};

describe('the face seen from outside', () => {
  it('has the index mark at the top and counts the way that was chosen', () => {
    near(spotAt(0, 10, 'clockwise'), 0, -10);
    near(spotAt(90, 10, 'clockwise'), 10, 0);
    near(spotAt(90, 10, 'anticlockwise'), -10, 0);
  });

  it('gives back the angle of a spot', () => {
    for (const turning of ['clockwise', 'anticlockwise'] as const) {
      for (const angle of [0, 1, 89, 180, 271, 359])
        expect(angleOf(spotAt(angle, 50, turning), turning)).toBeCloseTo(angle, 6);
    }
  });

  it('shares the ring out between its circles, the first outermost', () => {
    expect(bands(2, 40, 80)).toEqual([
      { inner: 60, outer: 80, middle: 70 },
      { inner: 40, outer: 60, middle: 50 },
    ]);
  });

  it('gives each point the ring half way to its neighbours, all of it together', () => {
    const pieces = sectors([0, 90, 180, 315]);
    expect(pieces[0]).toEqual({ from_deg: -22.5, to_deg: 45 });
    expect(pieces.reduce((sum, piece) => sum + piece.to_deg - piece.from_deg, 0)).toBeCloseTo(360, 9);
    expect(sectors([120])).toEqual([{ from_deg: 0, to_deg: 360 }]);
  });

  it('draws a piece as a closed outline between its two arcs', () => {
    expect(wedge(0, 90, 5, 10, 'clockwise')).toBe('M0 -10A10 10 0 0 1 10 0L5 0A5 5 0 0 0 0 -5Z');
  });

  it('finds the point under a finger, and none in the middle or far outside', () => {
    const points = [0, 1].flatMap((circle) => [0, 1, 2, 3].map((point) => ({ circle, point, angle_deg: 90 * point })));
    const ring = { inner: 40, outer: 80, turning: 'clockwise' } as const;
    expect(pointAt(spotAt(100, 72, 'clockwise'), points, 2, ring)).toMatchObject({ circle: 0, point: 1 });
    expect(pointAt(spotAt(350, 45, 'clockwise'), points, 2, ring)).toMatchObject({ circle: 1, point: 0 });
    expect(pointAt({ x: 0, y: 3 }, points, 2, ring)).toBeNull();
    expect(pointAt({ x: 0, y: 300 }, points, 2, ring)).toBeNull();
  });

  it('is coloured to the full at the limit and beyond, and not at all where nothing is known', () => {
    expect(shade(10.005, 10, 0.01)).toBeCloseTo(0.5, 9);
    expect(shade(9, 10, 0.01)).toBe(-1);
    expect(shade(null, 10, 0.01)).toBeNull();
    expect(shade(10, 10, 0)).toBe(0);
  });
});
