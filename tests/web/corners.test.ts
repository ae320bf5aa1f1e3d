import { describe, expect, it } from 'vitest';
import { cornerAfter, cornerInUse, cornersOf } from '../../web/src/shop/corners';

const insert = { id: 'i', corners: 3 };
const corner = (number: number, used_m: number, condition: 'sharp' | 'worn' | 'chipped' = 'sharp') => ({
  id: `c${number}`,
  insert_id: 'i',
  number,
  used_m,
  condition,
  note: '',
});

describe('the corners of an insert', () => {
  it('are all there and sharp before any is on record', () => {
    const lines = cornersOf(insert, []);
    expect(lines.map((line) => [line.number, line.condition, line.used_m])).toEqual([
      [1, 'sharp', 0],
      [2, 'sharp', 0],
      [3, 'sharp', 0],
    ]);
    expect(cornerInUse(lines)?.number).toBe(1);
    expect(cornerAfter(lines, cornerInUse(lines))?.number).toBe(2);
  });
  it('leave those of other inserts aside', () => {
    expect(cornersOf(insert, [{ ...corner(1, 900), insert_id: 'other' }])[0]?.used_m).toBe(0);
  });
  it('in use is the sharp one that has cut most', () => {
    const lines = cornersOf(insert, [corner(1, 400, 'worn'), corner(2, 120)]);
    expect(cornerInUse(lines)?.number).toBe(2);
    expect(cornerAfter(lines, cornerInUse(lines))?.number).toBe(3);
  });
  it('have an end: worn and chipped ones are not turned to', () => {
    const lines = cornersOf(insert, [corner(1, 400, 'worn'), corner(2, 300, 'chipped'), corner(3, 10)]);
    expect(cornerAfter(lines, cornerInUse(lines))).toBeNull();
    const spent = cornersOf(
      insert,
      [1, 2, 3].map((n) => corner(n, 5, 'worn')),
    );
    expect(cornerInUse(spent)).toBeNull();
  });
});
