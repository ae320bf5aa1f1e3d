import { describe, expect, it } from 'vitest';
import { decimalsFor, length, lengthDigits, percent, typedLength } from '../../web/src/show/length';

describe('lengths on the screen', () => {
  it.each([
    ['mm', 1000, 3],
    ['mm', 10_000, 2],
    ['mm', 2540, 3],
    ['in', 2540, 4],
    ['in', 12_700, 4],
    ['in', 25_400, 3],
    ['in', 1000, 5],
    ['mm', 0, 6],
  ] as const)('in %s with a step of %d nm have %d decimals', (unit, resolution_nm, decimals) => {
    expect(decimalsFor(unit, resolution_nm)).toBe(decimals);
  });

  it('keep the place of the gauge and its trailing noughts', () => {
    expect(length(21_230_000, { unit: 'mm', resolution_nm: 1000 })).toBe('21.230 mm');
    expect(length(21_234_400, { unit: 'in', resolution_nm: 2540 })).toBe('0.8360 in');
  });

  it('have a true minus, a plus where it is asked for, and no sign at nought', () => {
    const how = { unit: 'mm', resolution_nm: 1000 } as const;
    expect(lengthDigits(-12_000, how)).toBe('−0.012');
    expect(lengthDigits(12_000, { ...how, sign: true })).toBe('+0.012');
    expect(lengthDigits(-400, { ...how, sign: true })).toBe('0.000');
  });

  it('come back as they were typed: 836 thou to its place, a fraction as it stands, what is unread as it is', () => {
    expect(typedLength({ text: '836 thou', unit: 'in', nm: 21_234_400, resolution_nm: 25_400 })).toBe('0.836 in');
    expect(typedLength({ text: '13/16 in', unit: 'in', nm: 20_637_500, resolution_nm: 1_587_500 })).toBe('13/16 in');
    expect(typedLength({ text: '21,23', unit: 'mm' })).toBe('21,23 mm');
  });
});

describe('probabilities', () => {
  it.each([
    [0.954, '95 %'],
    [0.004, 'under 1 %'],
    [0.9999, 'over 99 %'],
    [1, '100 %'],
    [0, '0 %'],
  ])('%d is said %s', (p, said) => {
    expect(percent(p)).toBe(said);
  });
});
