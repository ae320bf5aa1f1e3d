import { describe, expect, it } from 'vitest';
import { houseMachineTo, limitDoubts, twoUnits } from '../../web/src/limits/limit_doubts';

const limit = (mm: number) => ({
  value: { text: `${mm}`, unit: 'mm' as const, nm: Math.round(mm * 1e6), resolution_nm: 10_000 },
  source: 'cast_on_part' as const,
  source_note: '',
});
const mm = (value: number, resolution_nm: number) => ({ nm: Math.round(value * 1e6), resolution_nm });
const inch = (value: number, resolution_in: number) => ({
  nm: Math.round(value * 25.4e6),
  resolution_nm: Math.round(resolution_in * 25.4e6),
});

describe('thickness limits that cannot all be right', () => {
  it('lets three limits in their order pass', () => {
    expect(limitDoubts({ nominal: limit(22), machine_to: limit(20.4), discard: limit(20) })).toEqual([]);
  });
  it('questions a machine-to that is no more than discard', () => {
    const doubts = limitDoubts({ machine_to: limit(20), discard: limit(20) });
    expect(doubts.map((doubt) => [doubt.code, doubt.field])).toEqual([['machine_to_not_over_discard', 'machine_to']]);
  });
  it('questions a nominal thickness under machine-to and says by how much', () => {
    const doubts = limitDoubts({ nominal: limit(20.3), machine_to: limit(20.4), discard: limit(20) });
    expect(doubts).toEqual([{ code: 'nominal_under_machine_to', field: 'nominal', difference_nm: -100_000 }]);
  });
  it('says nothing of limits that are unknown', () => {
    expect(limitDoubts({})).toEqual([]);
    expect(limitDoubts({ machine_to: limit(20), discard: null })).toEqual([]);
  });
});

describe('one limit in two units', () => {
  // Source: trade/public_rotor_specs.csv rows P03, P04, P05 (TM387 page 22-2, TM289 page 7-3), as printed.
  it('takes figures that are each the other rounded as one', () => {
    expect(twoUnits(inch(1.23, 0.01), mm(31.24, 10_000)).agreement).toBe('agree');
    expect(twoUnits(inch(0.815, 0.001), mm(20.7, 100_000)).agreement).toBe('agree');
    expect(twoUnits(inch(1.48, 0.01), mm(37.59, 10_000)).agreement).toBe('agree');
  });
  // Source: trade/public_rotor_specs.csv row P08 (TM279 page 11-4): 16.59 in is printed as 421.36 mm; it is 421.386.
  it('questions the published pair whose millimetres are not its inches', () => {
    const misprint = twoUnits(inch(16.59, 0.01), mm(421.36, 10_000));
    expect(misprint.agreement).not.toBe('agree');
    expect(misprint.difference_nm).toBe(26_000);
  });
  it('calls a pair that no rounding explains a disagreement', () => {
    expect(twoUnits(inch(0.815, 0.001), mm(20.4, 100_000)).agreement).toBe('disagree');
  });
});

describe('the house allowance', () => {
  it('adds the allowance to discard and offers nothing where either is unknown', () => {
    expect(houseMachineTo(mm(20, 10_000), 381_000)).toBe(20_381_000);
    expect(houseMachineTo(mm(20, 10_000), null)).toBeNull();
    expect(houseMachineTo(null, 381_000)).toBeNull();
  });
});
