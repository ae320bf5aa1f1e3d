import { describe, expect, it } from 'vitest';
import { numberOf, percentOf, shareOf } from '../../web/src/shop/numbers';

describe('a number in the shop’s settings', () => {
  it('is read with a comma or a point, and nothing else is', () => {
    expect(numberOf('0,05')).toBe(0.05);
    expect(numberOf(' .5 ')).toBe(0.5);
    for (const text of ['', '1,000.5', '1e9', 'five', '0x10']) expect(numberOf(text), text).toBeNull();
  });
  it('goes from a share to a percentage and back unchanged', () => {
    for (const share of [0.5, 0.9, 0.95, 0.975, 0.999]) expect(shareOf(Number(percentOf(share)))).toBe(share);
  });
});
