import { describe, expect, it } from 'vitest';
import type { JobFile, Part } from '../../web/src/api/schema';
import { afterFinish, finishState } from '../../web/src/finish/finish_steps';
import type { BenchEvent } from '../../web/src/guide/events';

const events = (...what: [string, BenchEvent['event']][]): BenchEvent[] =>
  what.map(([step, event], i) => ({
    id: String(i),
    step,
    pass: 0,
    event,
    detail: '',
    at_ms: 1000 * i,
    waiting: false,
  }));

describe('finishing a rotor', () => {
  it('begins with the outboard face and ends cold', () => {
    expect(finishState([]).at).toBe('sand_outboard');
    const all = ['sand_outboard', 'sand_inboard', 'washed', 'cloth_white', 'cool'].map(
      (step) => [step, 'done'] as [string, 'done'],
    );
    expect(finishState(events(...all)).at).toBeNull();
    expect(finishState(events(...all)).undo).toBe('cool');
  });
  it('has a clock for each side that survives a reload', () => {
    const begun = finishState(events(['sand_outboard', 'begun']));
    expect(begun.sanding_since_ms).toBe(0);
    const next = finishState(events(['sand_outboard', 'begun'], ['sand_outboard', 'done']));
    expect(next.at).toBe('sand_inboard');
    expect(next.sanding_since_ms).toBeNull();
  });
  it('is washed again when the cloth came away grey', () => {
    const washed: [string, BenchEvent['event']][] = [
      ['sand_outboard', 'done'],
      ['sand_inboard', 'done'],
      ['washed', 'done'],
    ];
    expect(finishState(events(...washed)).at).toBe('cloth_white');
    expect(finishState(events(...washed, ['cloth_white', 'trouble'], ['washed', 'undone'])).at).toBe('washed');
  });
  it('counts both faces as sanded where that was one tick', () => {
    expect(finishState(events(['sanded', 'done'])).at).toBe('washed');
  });
  it('takes back the clock with its step, and knows nothing of other steps', () => {
    expect(finishState(events(['sand_outboard', 'begun'], ['sand_outboard', 'undone'])).sanding_since_ms).toBeNull();
    expect(finishState(events(['guards', 'done'])).undo).toBeNull();
  });
});

describe('after the finish', () => {
  const left = { id: 'l', side: 'left' } as Part;
  const right = { id: 'r', side: 'right' } as Part;
  const file = (...cut: string[]) =>
    ({ parts: [left, right], cuts: cut.map((part_id) => ({ part_id })) }) as unknown as JobFile;
  const steps = (cut: string[], finished: boolean) => {
    const { step, part } = afterFinish(file(...cut), left, () => finished);
    return `${step} ${part.side}`;
  };
  it('the other rotor comes first, to the lathe or to its own finish', () => {
    expect(steps(['l'], false)).toBe('mount right');
    expect(steps(['l', 'r'], false)).toBe('finish right');
    expect(steps(['l', 'r'], true)).toBe('after left');
  });
});
