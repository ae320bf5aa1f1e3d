import { describe, expect, it } from 'vitest';
import {
  type Cutting,
  clockText,
  cornersOf,
  cornersText,
  cutsFace,
  dialsAt,
  taken,
  toolRadius,
} from '../../web/src/guide/dials';
import { bandsFor, edgesOf } from '../../web/src/guide/equipment';
import type { Attempt } from '../../web/src/guide/sequence';

const pass = (outboard_marks: number, inboard_marks: number, rest: Partial<Cutting> = {}): Cutting => ({
  plan_id: 'a',
  outboard_marks,
  inboard_marks,
  outcome: 'finished',
  ...rest,
});

describe('what the dials took in all', () => {
  it('is the sum of the passes, each face its own', () => {
    expect(taken([pass(4, 3), pass(2, 2)])).toEqual({ outboard: 6, inboard: 5 });
    expect(taken([])).toEqual({ outboard: 0, inboard: 0 });
  });
  it('counts a pass that was stopped and cut again once', () => {
    expect(taken([pass(4, 3, { outcome: 'stopped' }), pass(4, 3), pass(2, 2)])).toEqual({ outboard: 6, inboard: 5 });
  });
  it('counts a stopped pass after which the cut ended', () => {
    expect(taken([pass(4, 3), pass(2, 2, { outcome: 'stopped' })])).toEqual({ outboard: 6, inboard: 5 });
  });
  it('counts a stopped pass beside those of a new plan', () => {
    expect(taken([pass(4, 3, { outcome: 'stopped' }), pass(2, 2, { plan_id: 'b' })])).toEqual({
      outboard: 6,
      inboard: 5,
    });
  });
});

const passes = [
  { outboard_marks: 4, inboard_marks: 3, rpm: 120, feed_mm_per_rev: 0.2 },
  { outboard_marks: 2, inboard_marks: 2, rpm: 120, feed_mm_per_rev: 0.05 },
];
const attempt = (number: number, index: number, rest: Partial<Attempt> = {}): Attempt => ({
  number,
  index,
  from: index === 0 ? 'touch' : 'edge',
  again: false,
  ...rest,
});

describe('the dials before a pass', () => {
  it('are turned by the marks of the pass, and stand at those since the touch', () => {
    const all = [attempt(1, 0), attempt(2, 1)];
    expect(dialsAt(passes, all[0] as Attempt, all)).toEqual({
      turn: { outboard: 4, inboard: 3 },
      stand: { outboard: 4, inboard: 3 },
    });
    expect(dialsAt(passes, all[1] as Attempt, all)).toEqual({
      turn: { outboard: 2, inboard: 2 },
      stand: { outboard: 6, inboard: 5 },
    });
  });
  it('are not turned for the same depth again', () => {
    const all = [attempt(1, 0), attempt(2, 0, { from: 'edge', again: true })];
    expect(dialsAt(passes, all[1] as Attempt, all)).toEqual({
      turn: { outboard: 0, inboard: 0 },
      stand: { outboard: 4, inboard: 3 },
    });
  });
  it('count anew from a new touch', () => {
    const all = [attempt(1, 0), attempt(2, 1), attempt(3, 1, { from: 'touch' })];
    expect(dialsAt(passes, all[2] as Attempt, all).stand).toEqual({ outboard: 2, inboard: 2 });
  });
  it('know a face that no pass cuts', () => {
    expect(cutsFace(passes, 'inboard')).toBe(true);
    expect(cutsFace([{ ...(passes[0] as (typeof passes)[number]), inboard_marks: 0 }], 'inboard')).toBe(false);
  });
});

describe('the tool by the clock', () => {
  const ring = { inner_mm: 90, outer_mm: 140 };
  const planned = { time_s: (54 / (0.05 * 100)) * 60, rpm: 100, feed_mm_per_rev: 0.05 };
  it('goes from before the inner edge to beyond the outer one, evenly', () => {
    expect(toolRadius(ring, planned, 0)).toBeCloseTo(88, 9);
    expect(toolRadius(ring, planned, planned.time_s / 2)).toBeCloseTo(115, 9);
    expect(toolRadius(ring, planned, planned.time_s)).toBeCloseTo(142, 9);
  });
  it('stays at the end when the pass is over its time', () => {
    expect(toolRadius(ring, planned, 2 * planned.time_s)).toBeCloseTo(142, 9);
  });
  it('says minutes and seconds', () => {
    expect([clockText(0), clockText(65), clockText(-12.7), clockText(3600)]).toEqual(['0:00', '1:05', '0:12', '60:00']);
  });
});

describe('edges and bands', () => {
  const id = (n: number) => `00000000-0000-7000-8000-00000000000${n}`;
  it('come back from the words that a step keeps', () => {
    const corners = { outboard: id(1), inboard: id(2) };
    expect(cornersOf(cornersText(corners))).toEqual(corners);
    expect(cornersOf(cornersText({ outboard: null, inboard: id(2) }))).toEqual({ outboard: null, inboard: id(2) });
    expect(cornersOf('3.5')).toEqual({ outboard: null, inboard: null });
  });
  it('are offered sharp ones first, then the least used', () => {
    const insert = {
      id: id(9),
      name: 'triangle',
      nose_radius_nm: 400_000,
      max_speed_m_per_min: 120,
      corners: 3,
      note: '',
      active: true,
    };
    const corner = (n: number, condition: 'sharp' | 'worn' | 'chipped', used_m: number) => ({
      id: id(n),
      insert_id: id(9),
      number: n,
      condition,
      used_m,
      note: '',
    });
    const corners = [corner(1, 'worn', 0), corner(2, 'sharp', 900), corner(3, 'sharp', 30)];
    const order = (insert_id: string | null) =>
      edgesOf({ inserts: [insert], corners }, insert_id).map((one) => one.corner.number);
    expect(order(null)).toEqual([3, 2, 1]);
    expect(order(id(8))).toEqual([]);
  });
  it('fit by diameter, both ends included', () => {
    const band = (name: string, least: number | null, most: number | null, active = true) => ({
      id: name,
      name,
      hook: '',
      least_diameter_nm: least,
      most_diameter_nm: most,
      note: '',
      active,
    });
    const bands = [band('a', 200, 280), band('b', 280, 330), band('c', null, null), band('d', null, 300, false)];
    expect(bandsFor(bands, 280).map((one) => one.name)).toEqual(['a', 'b', 'c']);
    expect(bandsFor(bands, 340).map((one) => one.name)).toEqual(['c']);
    expect(bandsFor(bands, null).map((one) => one.name)).toEqual(['a', 'b', 'c']);
  });
});
