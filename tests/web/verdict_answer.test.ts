import { describe, expect, it } from 'vitest';
import { actionOf, pastDiscard, type VerdictAnswer, wayTo } from '../../web/src/verdict/answer';

const limit = (mm: number) => ({
  value: { text: `${mm}`, unit: 'mm' as const, nm: mm * 1e6, resolution_nm: 10_000 },
  source: 'cast_on_part' as const,
  source_note: '',
});
const part = (side: 'left' | 'right', discard_mm: number) => ({
  id: side,
  side,
  construction: 'hubless' as const,
  vented: true,
  limits: { discard: limit(discard_mm) },
});
const found = (name: string, min_mm: number) => ({
  name,
  action: 'cut',
  p: 1,
  reasons: [],
  thickness: { min_mm, mean_mm: min_mm, variation_mm: 0 },
});
/** As much of an answer as these questions look at. */
const verdict = (left: number, right: number) =>
  ({ parts: [found('left', left), found('right', right)] }) as unknown as VerdictAnswer;

describe('what may not be chosen', () => {
  it('is a cut of a rotor at or under discard, and of no other', () => {
    const parts = [part('left', 20), part('right', 20)];
    expect(pastDiscard(verdict(20.001, 21), parts)).toEqual([]);
    expect(pastDiscard(verdict(20, 21), parts).map((one) => one.side)).toEqual(['left']);
    expect(pastDiscard(verdict(21, 19.9), parts).map((one) => one.side)).toEqual(['right']);
  });
});

describe('the way to the next measurement', () => {
  const parts = [part('left', 20), part('right', 20)];
  it('begins at the rotor and the angle that it names', () => {
    const next = { kind: 'repeats' as const, part: 'right', angles_deg: [135, 315] };
    expect(wayTo(next, parts)).toEqual({ step: 'before', query: { part: 'right', angle: '135' } });
  });
  it('goes round with the indicator, or to the limits, where that is what lacks', () => {
    expect(wayTo({ kind: 'runout_on_arbor', part: 'left', angles_deg: [] }, parts).query.of).toBe('runout_outboard');
    expect(wayTo({ kind: 'find_limit', part: 'left', angles_deg: [] }, parts).step).toBe('limits');
    expect(wayTo(null, parts)).toEqual({ step: 'before', query: { part: 'left' } });
  });
});

describe('the four words', () => {
  it('are the same from a computation and from the shop', () => {
    expect(actionOf('measure again')).toBe('measure_again');
    expect(actionOf('measure_again')).toBe('measure_again');
    expect(actionOf('replace')).toBe('replace');
  });
});
