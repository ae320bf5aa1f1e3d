import { describe, expect, it } from 'vitest';
import type { Part } from '../../web/src/api/schema';
import { shownLength, shownStuds, UNTOUCHED, withSetup } from '../../web/src/car/setup_fields';

const mm = (text: string) => ({ text, unit: 'mm' as const, nm: Number(text) * 1e6, resolution_nm: 1_000_000 });
const wheel = (side: 'left' | 'right', some: Partial<Part> = {}): Part => ({
  id: side,
  side,
  construction: 'hubless',
  vented: true,
  limits: {},
  studs: null,
  hub_reading_diameter: null,
  outer_diameter: null,
  ...some,
});

describe('how the wheels are read on the car', () => {
  it('is shown as it is stored until it is touched', () => {
    const left = wheel('left', { outer_diameter: mm('280') });
    expect(shownLength(left, 'outer_diameter', UNTOUCHED, 'in')).toEqual({ text: '280', unit: 'mm' });
    expect(shownLength(left, 'hub_reading_diameter', UNTOUCHED, 'in')).toEqual({ text: '', unit: 'in' });
    expect(shownStuds(left, [left, wheel('right', { studs: 5 })], UNTOUCHED)).toBe(5);
  });

  it('lets a field be emptied where it was typed, and leaves the other wheel alone', () => {
    const left = wheel('left', { outer_diameter: mm('280'), hub_reading_diameter: mm('130'), studs: 5 });
    const right = wheel('right', { outer_diameter: mm('281'), studs: 5 });
    const touched = { plan: {}, lengths: { outer_diameter: { text: ' ' } } };
    const all = [left, right];
    expect(withSetup(left, left, all, touched, 'mm')).toEqual({ ...left, outer_diameter: null });
    expect(withSetup(right, left, all, touched, 'mm')).toEqual({
      ...right,
      hub_reading_diameter: { text: '130', unit: 'mm' },
    });
  });

  it('keeps what stands where only another field was touched', () => {
    const left = wheel('left', { outer_diameter: mm('280'), studs: 5 });
    expect(withSetup(left, left, [left], { studs: 4, plan: {}, lengths: {} }, 'mm')).toEqual({ ...left, studs: 4 });
    const inch = { plan: {}, lengths: { outer_diameter: { unit: 'in' as const } } };
    expect(withSetup(left, left, [left], inch, 'mm').outer_diameter).toEqual({ text: '280', unit: 'in' });
  });
});
