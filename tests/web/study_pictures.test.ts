import { describe, expect, it } from 'vitest';
import type { StudyGroup } from '../../web/src/api/schema';
import {
  axisOver,
  biasAgainstSpread,
  deviationsOf,
  digits,
  digitsIn,
  finenessOf,
  inchDigits,
  pText,
  shiftOf,
  sizeDigits,
  spansMark,
  tickText,
  twoPlaces,
} from '../../web/src/studies/deviations';
import { markOf } from '../../web/src/studies/marks';

const group = (some: Partial<StudyGroup>): StudyGroup => ({
  id: 'ada',
  readings: 4,
  mean_um: 20_000,
  repeatability_sd_um: 2,
  repeatability_interval_um: null,
  spread_ratio: 1,
  spread_p: 0.6,
  offset_um: 0.5,
  offset_interval_um: null,
  offset_p: 0.7,
  bias_um: null,
  bias_interval_um: null,
  bias_p: null,
  u_reading_um: 3,
  u_reading_basis: 'repeatability',
  parts_within: 0,
  parts_marked: 0,
  errors: [],
  ...some,
});
const error = (part: string, mean_um: number, reference_um: number) => ({
  reference_part_id: part,
  mean_um,
  reference_um,
  difference_um: mean_um - reference_um,
  en: 0.4,
});
const reading = (part: string, person_id: string, nm: number, repeat = 0) => ({
  id: `${part}${person_id}${repeat}`,
  study_id: 's',
  person_id,
  reference_part_id: part,
  instrument_id: 'mic',
  repeat,
  value: { text: String(nm / 1e6), unit: 'mm' as const, nm, resolution_nm: 1000 },
  at: '2026-03-02T09:00:00Z',
});
const cell = (part: string, person_id: string, mean_um: number) => ({
  reference_part_id: part,
  person_id,
  mean_um,
  sd_um: 1,
});
const study = { reference_part_ids: ['b', 'a'], person_ids: ['ben', 'ada', 'cy'] };
const cells = [cell('a', 'ada', 20_004), cell('b', 'ada', 12_001), cell('a', 'ben', 20_000), cell('b', 'ben', 11_999)];
const readings = [reading('a', 'ada', 20_004_000), reading('b', 'ben', 11_998_000)];

describe('readings as the pictures show them', () => {
  it('are taken from the references where every part has one, so that parts of any size share an axis', () => {
    const people = [group({ errors: [error('a', 20_004, 20_001), error('b', 12_001, 12_000)] })];
    const made = deviationsOf({ people, cells, readings }, study);
    expect(made.from).toBe('reference');
    expect(made.readings).toEqual([
      { part_id: 'a', person_id: 'ada', um: 3 },
      { part_id: 'b', person_id: 'ben', um: -2 },
    ]);
    expect(made.means.find((one) => one.part_id === 'b' && one.person_id === 'ben')?.um).toBe(-1);
  });

  it('are taken from the mean of each part where one has no reference', () => {
    const people = [group({ errors: [error('a', 20_004, 20_001)] })];
    const made = deviationsOf({ people, cells, readings }, study);
    expect(made.from).toBe('mean');
    expect(made.readings.map((one) => one.um)).toEqual([2, -2]);
  });

  it('keep the order of the study, and leave out who is not through', () => {
    const made = deviationsOf({ people: [], cells, readings }, study);
    expect(made.parts).toEqual(['b', 'a']);
    expect(made.people).toEqual(['ben', 'ada']);
  });
});

describe('an axis', () => {
  it('holds every value and nought between round marks', () => {
    for (const values of [[3.2, -1.1], [250, 900], [-0.004, -0.031], [0], [], [12.5]]) {
      const axis = axisOver(values);
      expect(axis.low).toBeLessThanOrEqual(Math.min(0, ...values));
      expect(axis.high).toBeGreaterThanOrEqual(Math.max(0, ...values));
      expect(axis.high).toBeGreaterThan(axis.low);
      expect(axis.ticks).toContain(0);
      expect(axis.ticks.length).toBeLessThanOrEqual(9);
    }
    expect(axisOver([-1.1, 3.2]).ticks).toEqual([-2, -1, 0, 1, 2, 3, 4]);
  });
  it('tells all its marks apart, with no more places than its step has', () => {
    for (const values of [[0.12], [-0.004, -0.031], [3.2, -1.1], [250, 900], [0.9, 12.5]]) {
      const axis = axisOver(values);
      const texts = axis.ticks.map((one) => tickText(one, axis));
      expect(new Set(texts).size).toBe(texts.length);
    }
    expect(axisOver([0.12]).ticks.map((one) => tickText(one, { step: 0.02 }))).toContain('0.02');
    expect([-20, 0, 20].map((one) => tickText(one, { step: 20 }))).toEqual(['−20', '0', '20']);
    expect([-0.5, 0, 0.5].map((one) => tickText(one, { step: 0.5 }))).toEqual(['−0.5', '0.0', '0.5']);
  });
});

describe('figures in the unit of the shop', () => {
  it('are micrometres where millimetres are worked in, inches where inches are', () => {
    expect([digitsIn('mm', 3.21, true), digitsIn('mm', -3.21)]).toEqual(['+3.2', '−3.2']);
    expect([digitsIn('in', 3.21, true), digitsIn('in', -3.21)]).toEqual(['+0.00013', '−0.00013']);
    expect([sizeDigits('mm', 20_001.26), sizeDigits('in', 25_400)]).toEqual(['20.0013', '1.000000']);
  });
});

describe('people side by side on a part', () => {
  it('stay within the column of their part, each at a place of their own', () => {
    const shifts = Array.from({ length: 20 }, (_, k) => shiftOf(k, 20));
    expect(new Set(shifts).size).toBe(20);
    expect(Math.max(...shifts.map(Math.abs))).toBeLessThan(0.5);
    expect(shiftOf(0, 1)).toBe(0);
  });
});

describe('the shapes of people', () => {
  it('are told apart without colour for a class of thirty', () => {
    const marks = Array.from({ length: 30 }, (_, k) => markOf(k));
    expect(new Set(marks.map((one) => `${one.d}${one.look}`)).size).toBe(30);
  });
  it('are about as large as asked', () => {
    for (let k = 0; k < 10; ++k) {
      const reach = [...markOf(k, 10).d.matchAll(/-?[0-9.]+/g)].map((found) => Math.abs(Number(found[0])));
      expect(Math.max(...reach)).toBeGreaterThan(3.5);
      expect(Math.max(...reach)).toBeLessThan(7);
    }
  });
});

describe('being off against being spread', () => {
  it('names neither where neither goes beyond chance', () => {
    expect(biasAgainstSpread(group({}))).toBe('neither');
    expect(biasAgainstSpread(group({ spread_p: 0.01, spread_ratio: 0.3 }))).toBe('neither');
  });
  it('names the one that is larger where both do', () => {
    const both = { bias_p: 0.001, spread_p: 0.01, spread_ratio: 3 };
    expect(biasAgainstSpread(group({ ...both, bias_um: -8 }))).toBe('bias');
    expect(biasAgainstSpread(group({ ...both, bias_um: -1 }))).toBe('spread');
  });
  it('holds a hand against the others where there is no reference', () => {
    expect(biasAgainstSpread(group({ offset_um: 9, offset_p: 0.002 }))).toBe('bias');
  });
});

describe('the share of the tolerance', () => {
  it('has a word on either side of its marks, and says when its interval leaves that open', () => {
    expect([9.9, 10, 30, 30.1].map(finenessOf)).toEqual(['fine', 'middle', 'middle', 'coarse']);
    expect(spansMark({ low95: 12, high95: 28 })).toBe(false);
    expect(spansMark({ low95: 8, high95: 28 })).toBe(true);
    expect(spansMark(null)).toBe(false);
  });
});

describe('figures', () => {
  it('have as many places as tell something, and a true minus', () => {
    expect([3.21, -0.04, -12.6, 250.4].map((one) => digits(one))).toEqual(['3.2', '0.0', '−13', '250']);
    expect(digits(2, true)).toBe('+2.0');
    expect(inchDigits(25.4)).toBe('0.00100');
    expect(inchDigits(-2.54)).toBe('−0.00010');
    expect([-1.234, -0.001].map(twoPlaces)).toEqual(['−1.23', '0.00']);
    expect([0.00001, 0.0312].map(pText)).toEqual(['< 0.0001', '0.0312']);
  });
});
