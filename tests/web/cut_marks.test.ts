import { describe, expect, it } from 'vitest';
import { marksOf, planFor } from '../../web/src/cut/marks';
import { type VerdictAnswer, verdictOf } from '../../web/src/verdict/answer';

const part = (id: string, side: 'left' | 'right') => ({
  id,
  side,
  construction: 'hubless' as const,
  vented: true,
  limits: {},
});
const parts = [part('a', 'left'), part('b', 'right')];
/** As much of an answer as a plan is made from. */
const answer = (outboard_marks: number) => ({
  action: 'cut',
  p: 0.98,
  reasons: [],
  parts: ['right', 'left'].map((name, i) => ({
    name,
    action: 'cut',
    p: 0.98,
    reasons: [],
    thickness: { min_mm: 21, mean_mm: 21.01, variation_mm: 0.02 },
    cleanup: {
      outboard_cut_um: 90,
      inboard_cut_um: 90,
      outboard_marks: outboard_marks + i,
      inboard_marks: 4,
      final_mm: 20.8,
      final_whole_marks_mm: 20.79,
    },
    machine_to: { value_mm: 20.4, source: 'cast on the part' },
  })),
});

const verdict = (outboard_marks: number) => answer(outboard_marks) as unknown as VerdictAnswer;

describe('the plan of a cut', () => {
  it('is that of the rotor it is for, whatever the order', () => {
    expect(verdictOf(verdict(4), parts[0] as never, parts)?.name).toBe('left');
    expect(planFor([], verdict(4), parts[0] as never, parts)?.outboard).toBe(5);
    expect(planFor([], verdict(4), parts[1] as never, parts)?.outboard).toBe(4);
  });
  it('stays what was decided although readings came in since', () => {
    const decided = [{ action: 'cut', computed: verdict(4) }] as never[];
    expect(planFor(decided, verdict(9), parts[1] as never, parts)).toEqual({
      outboard: 4,
      inboard: 4,
      final_mm: 20.79,
      machine_to_mm: 20.4,
    });
  });
  it('is absent where nothing was computed', () => {
    expect(planFor([], null, parts[0] as never, parts)).toBeNull();
  });
});

describe('marks as typed', () => {
  it('are whole and not negative', () => {
    expect(marksOf(' 12 ')).toBe(12);
    expect(marksOf('0')).toBe(0);
    for (const text of ['', '1.5', '-2', '4 marks', '12345']) expect(marksOf(text), text).toBeNull();
  });
});
