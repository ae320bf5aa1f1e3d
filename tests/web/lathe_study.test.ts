import { describe, expect, it } from 'vitest';
import { pointsOf, rangeOf } from '../../web/src/check/study';

const job = (job_number: number, at: string, marks: number, depth_um: number) => ({
  job_number,
  at,
  outboard_marks: marks,
  inboard_marks: marks,
  depth_um,
  u_depth_um: 4,
});

describe('the jobs of a lathe over time', () => {
  it('each say what a mark was, in order of time, with an uncertainty that many marks make small', () => {
    const points = pointsOf([job(2, '2026-03-02T10:00:00.000Z', 10, 500), job(1, '2026-03-01T10:00:00.000Z', 2, 104)]);
    expect(points.map((one) => [one.number, one.per_mark_um, one.u_um])).toEqual([
      [1, 26, 1],
      [2, 25, 0.2],
    ]);
  });
  it('say nothing where no dial was turned', () => {
    expect(pointsOf([job(1, '2026-03-01T10:00:00.000Z', 0, 3)])).toEqual([]);
  });
});

describe('the upright axis', () => {
  it('holds every value with some room, and never a single one', () => {
    const { low, high } = rangeOf([24, 26]);
    expect(low).toBeLessThan(24);
    expect(high).toBeGreaterThan(26);
    const one = rangeOf([25]);
    expect(one.high - one.low).toBeGreaterThan(0);
    expect(rangeOf([])).toEqual({ low: 0, high: 1 });
  });
});
