import { describe, expect, it } from 'vitest';
import { machineToFor, marksOf, oddMarks, planFor, planOfPasses } from '../../web/src/cut/marks';
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
    expect(machineToFor([], null, parts[0] as never, parts)).toBeNull();
  });
  it('is absent where nothing has to come off, and what a cut may not pass is known all the same', () => {
    const drum = (marks: number) =>
      ({ parts: [{ name: 'left', marks, final_mm: 255, machine_to: { value_mm: 256.2, source: '' } }] }) as never;
    const left = parts[0] as never;
    expect(planFor([], drum(0), left, parts)).toBeNull();
    expect(machineToFor([], drum(0), left, parts)).toBe(256.2);
    expect(planFor([], drum(3), left, parts)).toEqual({ outboard: 3, inboard: 0, final_mm: 255, machine_to_mm: 256.2 });
    const disc = { parts: [{ name: 'left', cleanup: { outboard_marks: 0, inboard_marks: 0 } }] } as never;
    expect(planFor([], disc, left, parts)).toBeNull();
  });
});

describe('marks as typed', () => {
  it('are whole and not negative', () => {
    expect(marksOf(' 12 ')).toBe(12);
    expect(marksOf('0')).toBe(0);
    for (const text of ['', '1.5', '-2', '4 marks', '12345']) expect(marksOf(text), text).toBeNull();
  });
});

describe('passes that were settled on', () => {
  const pass = (outboard_marks: number, inboard_marks: number) => ({ outboard_marks, inboard_marks });
  const settled = { id: 'p2', part_id: 'a', final_mm: 20.7, passes: [pass(5, 4), pass(3, 3)] } as never;
  const cutBy = (plan_id: string, outcome: string, part_id = 'a') =>
    ({ plan_id, part_id, outcome, ...pass(2, 1) }) as never;
  it('are summed from first touch, what an earlier plan took included', () => {
    expect(planOfPasses(settled, [], 20.6)).toEqual({ outboard: 8, inboard: 7, final_mm: 20.7, machine_to_mm: 20.6 });
    const earlier = [cutBy('p1', 'finished'), cutBy('p1', 'stopped'), cutBy('p1', 'finished', 'b')];
    expect(planOfPasses(settled, earlier, null)).toMatchObject({ outboard: 10, inboard: 8 });
  });
  it('are not counted twice while they are being cut', () => {
    expect(planOfPasses(settled, [cutBy('p2', 'finished')], null)).toMatchObject({ outboard: 8, inboard: 7 });
  });
});

describe('marks as they are typed', () => {
  const plan = { outboard: 8, inboard: 7 };
  it('are doubted where nothing, or one side alone, was cut against the plan', () => {
    expect(oddMarks({ outboard: 0, inboard: 0 }, plan)).toBe('no_side');
    expect(oddMarks({ outboard: 8, inboard: 0 }, plan)).toBe('one_side');
    expect(oddMarks({ outboard: 8, inboard: 0 }, null)).toBe('one_side');
    expect(oddMarks({ outboard: 8, inboard: 0 }, { outboard: 8, inboard: 0 })).toBeNull();
  });
  it('are doubted far from the plan, as with one digit too many, and not near it', () => {
    expect(oddMarks({ outboard: 88, inboard: 7 }, plan)).toBe('far_off');
    expect(oddMarks({ outboard: 8, inboard: 1 }, plan)).toBe('far_off');
    expect(oddMarks({ outboard: 12, inboard: 5 }, plan)).toBeNull();
    expect(oddMarks({ outboard: 88, inboard: 70 }, null)).toBeNull();
  });
});
