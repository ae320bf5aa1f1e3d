import { describe, expect, it } from 'vitest';
import type { Lathe } from '../../web/src/api/schema';
import { areMeasured, dialsOf, markInWords, typedDials } from '../../web/src/show/dials';

const lathe = { dial_um_per_mark: 25, dial_inboard_um_per_mark: 20 } as unknown as Lathe;
const bench = (outboard: number, inboard: number) => ({
  dial_um_per_mark: outboard,
  dial_inboard_um_per_mark: inboard,
  dial_sd_um: 3,
  mount_rms_um: 12,
  basis: null,
});

describe('a mark of each dial', () => {
  it('is what the shop reckons with for the job, else what was typed', () => {
    expect(dialsOf(bench(24.2, 19.7), lathe)).toEqual({ outboard_um: 24.2, inboard_um: 19.7 });
    expect(dialsOf(null, lathe)).toEqual({ outboard_um: 25, inboard_um: 20 });
    expect(dialsOf(undefined, null)).toEqual({ outboard_um: 25.4, inboard_um: 25.4 });
  });
  it('is the same on both dials where only one was typed', () => {
    const one = { dial_um_per_mark: 50, dial_inboard_um_per_mark: null } as unknown as Lathe;
    expect(typedDials(one)).toEqual({ outboard_um: 50, inboard_um: 50 });
  });
  it('counts as measured where either differs from what was typed', () => {
    expect(areMeasured(dialsOf(bench(25, 20), lathe), lathe, false)).toBe(false);
    expect(areMeasured(dialsOf(bench(25, 19.9), lathe), lathe, false)).toBe(true);
    expect(areMeasured(dialsOf(null, lathe), lathe, false)).toBe(false);
  });
  it('of a drum is that of the one tool that bores it', () => {
    const how = { unit: 'mm', resolution_nm: 100 } as const;
    expect(areMeasured(dialsOf(bench(25, 19.9), lathe), lathe, true)).toBe(false);
    expect(areMeasured(dialsOf(bench(24.8, 20), lathe), lathe, true)).toBe(true);
    expect(markInWords(typedDials(lathe), true, how)).toBe('0.0250 mm');
    expect(markInWords(typedDials(lathe), false, how)).toBe('0.0250 mm outboard, 0.0200 mm inboard');
    expect(markInWords({ outboard_um: 25, inboard_um: 25 }, false, how)).toBe('0.0250 mm');
  });
});
