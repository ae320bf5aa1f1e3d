import { describe, expect, it } from 'vitest';
import type { Lathe, PlannedPass } from '../../web/src/api/schema';
import { askedOf } from '../../web/src/plan/force_band';
import { everyFrame, Latest } from '../../web/src/plan/latest';
import { scaleOf } from '../../web/src/plan/layers';
import { wayFor } from '../../web/src/plan/missing';
import { steppedBy } from '../../web/src/plan/slider';
import { changed, choicesOf, layersOf, same, withOneMore, without } from '../../web/src/plan/what_if';

const passes: PlannedPass[] = [
  { outboard_marks: 5, inboard_marks: 4, rpm: 120, feed_mm_per_rev: 0.2 },
  { outboard_marks: 3, inboard_marks: 2, rpm: 150, feed_mm_per_rev: 0.05 },
];
const lathe = { speeds_rpm: [100, 150, 200], feeds_mm_per_rev: [0.05, 0.1, 0.2] } as unknown as Lathe;

describe('passes as they are tried out', () => {
  it('change in one place, and the others stay', () => {
    const next = changed(passes, 1, 'rpm', 200);
    expect(next[1]).toEqual({ ...passes[1], rpm: 200 });
    expect(next[0]).toEqual(passes[0]);
    expect(passes[1]?.rpm).toBe(150);
  });
  it('are the same whatever was foreseen of them', () => {
    expect(
      same(
        passes,
        passes.map((one) => ({ ...one, time_s: 3 })),
      ),
    ).toBe(true);
    expect(same(passes, changed(passes, 0, 'inboard_marks', 5))).toBe(false);
    expect(same(passes, passes.slice(0, 1))).toBe(false);
  });
  it('take only what the lathe has, and what is set now', () => {
    expect(choicesOf('rpm', 120, lathe)).toEqual([100, 120, 150, 200]);
    expect(choicesOf('feed_mm_per_rev', 0.1, lathe)).toEqual([0.05, 0.1, 0.2]);
    expect(choicesOf('rpm', 120, null)).toEqual([120]);
  });
  it('take whole marks from none to some more than are set', () => {
    const marks = choicesOf('outboard_marks', 20, lathe);
    expect(marks[0]).toBe(0);
    expect(marks.at(-1)).toBe(26);
    expect(choicesOf('outboard_marks', 1, lathe).at(-1)).toBe(12);
  });
  it('get one more at the finest feed, and lose one', () => {
    expect(withOneMore(passes, lathe)[2]).toEqual({
      outboard_marks: 2,
      inboard_marks: 2,
      rpm: 150,
      feed_mm_per_rev: 0.05,
    });
    expect(withOneMore([], lathe)).toHaveLength(1);
    expect(without(passes, 0)).toEqual([passes[1]]);
  });
  it('lie on each face one upon the other, each by its own dial', () => {
    expect(layersOf(passes, { outboard_um: 25, inboard_um: 20 })).toEqual([
      { pass: 0, face: 'outboard', from_um: 0, to_um: 125 },
      { pass: 1, face: 'outboard', from_um: 125, to_um: 200 },
      { pass: 0, face: 'inboard', from_um: 0, to_um: 80 },
      { pass: 1, face: 'inboard', from_um: 80, to_um: 120 },
    ]);
  });
  it('are drawn to one scale that leaves the middle free, also where nothing is cut', () => {
    const layers = layersOf(passes, { outboard_um: 25, inboard_um: 20 });
    expect(scaleOf(layers, null) * 200).toBeLessThan(200 - 30 - 38);
    expect(scaleOf(layers, 400)).toBeLessThan(scaleOf(layers, null));
    expect(Number.isFinite(scaleOf([], 0))).toBe(true);
  });
});

describe('the force of a pass', () => {
  const pass = { ...passes[0], surface_speed_m_per_min: 100 } as never;
  it('is asked for each face that is cut, by its own dial', () => {
    const asked = askedOf(pass, { outboard_um: 25, inboard_um: 20 }, 0.4);
    expect(asked.map((one) => one?.depth_mm)).toEqual([0.125, 0.08]);
  });
  it('is not asked where nothing is cut, or deeper than the nose', () => {
    expect(
      askedOf({ ...(pass as object), outboard_marks: 0 } as never, { outboard_um: 25, inboard_um: 20 }, 0.07),
    ).toEqual([null, null]);
  });
});

describe('a stepped slider', () => {
  it('goes by the arrows, in threes by the page keys, and to its ends', () => {
    expect([steppedBy('ArrowUp', 2, 9), steppedBy('ArrowLeft', 2, 9), steppedBy('PageUp', 2, 9)]).toEqual([3, 1, 5]);
    expect([steppedBy('Home', 2, 9), steppedBy('End', 2, 9)]).toEqual([0, 9]);
    expect([steppedBy('ArrowLeft', 0, 9), steppedBy('PageUp', 8, 9)]).toEqual([0, 9]);
    expect(steppedBy('Enter', 2, 9)).toBeNull();
  });
});

describe('questions during a drag', () => {
  it('are asked one at a time, the last one last, those between not at all', async () => {
    const asked: number[] = [];
    const answers: string[] = [];
    const open: (() => void)[] = [];
    const latest = new Latest<number, string>(
      (question) => {
        asked.push(question);
        return new Promise((resolve) => open.push(() => resolve(`answer ${question}`)));
      },
      (answer) => answers.push(answer),
      (cause) => answers.push(String(cause)),
    );
    for (const question of [1, 2, 3, 4]) latest.want(question);
    expect(asked).toEqual([1]);
    open[0]?.();
    await new Promise((resolve) => setTimeout(resolve));
    expect(asked).toEqual([1, 4]);
    open[1]?.();
    await new Promise((resolve) => setTimeout(resolve));
    expect(answers).toEqual(['answer 1', 'answer 4']);
  });
  it('go on after one that failed, and leave a dropped one aside', async () => {
    const heard: string[] = [];
    let settle = (_: string) => {};
    const latest = new Latest<string, string>(
      (question) =>
        question === 'bad'
          ? Promise.reject(new Error('no'))
          : new Promise((resolve) => {
              settle = resolve;
            }),
      (answer) => heard.push(answer),
      (cause) => heard.push((cause as Error).message),
    );
    latest.want('bad');
    await new Promise((resolve) => setTimeout(resolve));
    latest.want('old');
    latest.drop();
    settle('old answer');
    await new Promise((resolve) => setTimeout(resolve));
    expect(heard).toEqual(['no']);
    latest.want('new');
    settle('new answer');
    await new Promise((resolve) => setTimeout(resolve));
    expect(heard).toEqual(['no', 'new answer']);
  });
  it('wait for the next frame, and only the last of them is taken', () => {
    const frames: (() => void)[] = [];
    const done: number[] = [];
    const want = everyFrame<number>(
      (value) => done.push(value),
      (then) => frames.push(then),
    );
    for (const value of [1, 2, 3]) want(value);
    expect(frames).toHaveLength(1);
    frames[0]?.();
    want(4);
    frames[1]?.();
    expect(done).toEqual([3, 4]);
  });
});

describe('what a plan still needs', () => {
  it('is kept where it belongs', () => {
    expect(wayFor('lathe', 7)?.to).toBe('/jobs/7/arrival');
    expect(wayFor('lathe.speeds_rpm', 7)?.to).toBe('/shop/lathes');
    expect(wayFor('insert', 7)?.to).toBe('/shop/edges');
    expect(wayFor('verdict', 7)?.to).toBe('/jobs/7/verdict');
    expect(wayFor('limits.machine_to', 7)?.to).toBe('/jobs/7/limits');
    expect(wayFor('something new', 7)).toBeNull();
  });
});
