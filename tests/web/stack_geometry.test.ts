import { describe, expect, it } from 'vitest';
import { missingOf, seatFields } from '../../web/src/mount/seat_fields';
import {
  assemblyOrder,
  type DrawnPiece,
  type DrawnRotor,
  drawStack,
  outsideOf,
  type Shape,
  seatOn,
  spread,
} from '../../web/src/mount/stack_geometry';

const piece = (id: string, kind: DrawnPiece['kind'], rest: Partial<DrawnPiece> = {}): DrawnPiece => ({
  id,
  kind,
  length_mm: 40,
  bore_mm: 25.4,
  small_mm: null,
  large_mm: null,
  ring_inner_mm: null,
  ring_outer_mm: null,
  cup_depth_mm: null,
  cup_bore_mm: null,
  outside_mm: null,
  damping: false,
  weighted: false,
  ...rest,
});
const rotor: DrawnRotor = {
  hubbed: false,
  bore_mm: 64,
  flange_mm: 7,
  flat_outer_mm: 140,
  hub_length_mm: 82,
  inner_race_mm: 52,
  outer_race_mm: 44,
  outer_diameter_mm: 280,
  ring_inner_mm: 170,
  thickness_mm: 22,
  hat_height_mm: 45,
};
const bell = { ring_inner_mm: 100, ring_outer_mm: 130, cup_depth_mm: 36, cup_bore_mm: 96, length_mm: 50 };
const hubless = [
  piece('c1', 'clamp', bell),
  piece('s', 'spring'),
  piece('k', 'cone', { small_mm: 56, large_mm: 72, length_mm: 32 }),
  piece('c2', 'clamp', { ...bell, length_mm: 48 }),
  piece('x1', 'spacer', { length_mm: 20, damping: true }),
  piece('x2', 'spacer', { length_mm: 35 }),
  piece('n', 'nut', { length_mm: 28 }),
];
const hubbed = [
  piece('t1', 'taper', { small_mm: 44, large_mm: 60, outside_mm: 18 }),
  piece('t2', 'taper', { small_mm: 36, large_mm: 52, length_mm: 40 }),
  piece('x1', 'spacer', { length_mm: 50 }),
  piece('n', 'nut'),
];

const xs = (shape: Shape | undefined) => (shape?.points ?? []).map(([x]) => x);
const of = (drawing: { shapes: readonly Shape[] }, key: string) => drawing.shapes.find((one) => one.key === key);
const ends = (shape: Shape | undefined) => [Math.min(...xs(shape)), Math.max(...xs(shape))];

/** Radius of a cone's or taper's slope at x. */
function radiusAt(shape: Shape, x: number): number {
  const [, [x0, r0] = [0, 0], [x1, r1] = [0, 0]] = shape.points;
  return r0 + ((x - x0) / (x1 - x0)) * (r1 - r0);
}

describe('the order of assembly', () => {
  it('has the rotor behind the cone, or behind the first taper', () => {
    expect(assemblyOrder(hubless, false)).toEqual(['c1', 's', 'k', 'rotor', 'c2', 'x1', 'x2', 'n']);
    expect(assemblyOrder(hubbed, true)).toEqual(['t1', 'rotor', 't2', 'x1', 'n']);
  });
  it('numbers every piece once', () => {
    for (const drawing of [drawStack(hubless, rotor), drawStack(hubbed, { ...rotor, hubbed: true })]) {
      const numbers = [...new Set(drawing.shapes.map((shape) => shape.number))].sort((a, b) => a - b);
      expect(numbers).toEqual(numbers.map((_, i) => i + 1));
    }
  });
});

describe('a hubless rotor on its arbor, to scale', () => {
  const drawing = drawStack(hubless, rotor);
  it('is as long from the shoulder to the nut as clamps, flange and spacers together', () => {
    expect(drawing.length_mm).toBeCloseTo(50 + 7 + 48 + 20 + 35, 9);
    expect(ends(of(drawing, 'n'))[0]).toBeCloseTo(drawing.length_mm, 9);
  });
  it('has each piece where the one before it ends', () => {
    expect(ends(of(drawing, 'c1'))).toEqual([0, 50]);
    expect(ends(of(drawing, 'c2'))).toEqual([57, 105]);
    expect(ends(of(drawing, 'x1'))).toEqual([105, 125]);
    expect(ends(of(drawing, 'x2'))).toEqual([125, 160]);
  });
  it('has the cone in the bore where its diameter is that of the bore, large end towards the shoulder', () => {
    const cone = of(drawing, 'k') as Shape;
    expect(radiusAt(cone, 50)).toBeCloseTo(32, 9);
    expect(radiusAt(cone, ends(cone)[0] as number)).toBe(36);
  });
  it('has the spring between the floor of the cup and the cone', () => {
    expect(ends(of(drawing, 's'))[0]).toBeCloseTo(50 - 36, 9);
    expect(ends(of(drawing, 's'))[1]).toBeCloseTo(ends(of(drawing, 'k'))[0] as number, 9);
  });
  it('has both rings bear on the flange', () => {
    const rings = ['c1', 'c2'].map((key) => of(drawing, key)?.points.filter(([x]) => x === (key === 'c1' ? 50 : 57)));
    for (const ring of rings) expect(ring?.map(([, r]) => r)).toEqual([65, 50]);
  });
  it('has the braking ring the hat height back from the flange, as thick and as wide as it was measured', () => {
    const ring = of(drawing, 'rotor_ring');
    expect(ends(ring)).toEqual([57 - 45 - 22, 57 - 45]);
    expect(drawing.top_mm).toBe(140);
    expect(drawing.from_mm).toBe(57 - 45 - 22);
    expect(ring?.guessed).toBe(false);
  });
  it('says so where a size stands in for one that nobody measured', () => {
    const guessed = drawStack(hubless, { ...rotor, outer_diameter_mm: null });
    expect(of(guessed, 'rotor_ring')?.guessed).toBe(true);
  });
  it('never draws a cup through the back of its clamp', () => {
    const deep = drawStack([piece('c1', 'clamp', { ...bell, cup_depth_mm: 90 }), ...hubless.slice(1)], rotor);
    expect(ends(of(deep, 'c1'))).toEqual([0, 50]);
    expect(Math.min(...xs(of(deep, 's')))).toBeGreaterThan(0);
  });
});

describe('a rotor with its hub on its arbor, to scale', () => {
  const drawing = drawStack(hubbed, { ...rotor, hubbed: true });
  const t2 = hubbed[1] as DrawnPiece;
  it('is as long as the hub, what the tapers stand out, and the spacers', () => {
    const out = outsideOf(t2, 44);
    expect(out).toBeCloseTo(0.5 * 40, 9);
    expect(drawing.length_mm).toBeCloseTo(18 + 82 + out + 50, 9);
  });
  it('has each taper in its race where its diameter is that of the race, large ends outward', () => {
    const second = of(drawing, 't2') as Shape;
    expect(radiusAt(second, 18 + 82)).toBeCloseTo(22, 9);
    expect(radiusAt(second, ends(second)[1] as number)).toBe(26);
    expect(of(drawing, 't1')?.points[1]).toEqual([0, 30]);
  });
});

describe('how far up a cone a bore sits', () => {
  it('is a share of the slope, and stays on the cone', () => {
    expect(seatOn({ small_mm: 56, large_mm: 72 }, 60)).toBe(0.25);
    expect(seatOn({ small_mm: 56, large_mm: 72 }, 90)).toBe(1);
    expect(seatOn({ small_mm: null, large_mm: 72 }, 60)).toBe(0.5);
  });
});

describe('numbers under a drawing', () => {
  it('stay where they point while there is room', () => {
    expect(spread([10, 50, 90], 20, 0, 100)).toEqual([10, 50, 90]);
  });
  it('keep their gap and their order, and stay within the picture', () => {
    const placed = spread([40, 42, 41, 98], 12, 0, 100);
    const [a, b, c, d] = placed as [number, number, number, number];
    expect(c - a).toBeGreaterThanOrEqual(12);
    expect(b - c).toBeGreaterThanOrEqual(12);
    expect(d).toBeLessThanOrEqual(100);
    expect(d - b).toBeGreaterThanOrEqual(12);
  });
});

describe('what is missing for a stack', () => {
  it('is sorted by where it is mended', () => {
    expect(missingOf(['seat.bore', 'lathe.tip', 'pegboard'])).toEqual({
      seat: ['bore'],
      lathe: ['tip'],
      noLathe: false,
      noPieces: true,
    });
    expect(missingOf(['lathe']).noLathe).toBe(true);
  });
  it('is asked of each construction by its own fields, each with its own letter', () => {
    for (const construction of ['hubless', 'integral_hub'] as const) {
      const fields = seatFields({ construction });
      expect(new Set(fields.map((field) => field.letter)).size).toBe(fields.length);
      expect(fields.filter((field) => field.needed).length).toBe(construction === 'hubless' ? 4 : 3);
    }
  });
});
