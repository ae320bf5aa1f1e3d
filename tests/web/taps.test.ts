import { describe, expect, it } from 'vitest';
import { FEWEST_TAPS, frequencyOf, PAUSE_MS, withTap } from '../../web/src/detective/taps';

/** A small generator of its own, so that the same numbers come on every machine. */
function random(seed: number) {
  let state = seed;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 4294967296;
  };
  return { normal: () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform()) };
}

const train = (n: number, hz: number, off: (i: number) => number = () => 0) =>
  Array.from({ length: n }, (_, i) => 1000 + (1000 * i) / hz + off(i));

describe('pulses counted with the thumb', () => {
  it('are no frequency before there are enough of them', () => {
    expect(frequencyOf([])).toBeNull();
    expect(frequencyOf(train(FEWEST_TAPS - 1, 4))).toBeNull();
    expect(frequencyOf(train(FEWEST_TAPS, 4))?.hz).toBeCloseTo(4, 9);
  });
  it('count every pulse that goes to one tap, and its uncertainty with it', () => {
    const plain = frequencyOf(train(20, 5));
    const fourth = frequencyOf(train(20, 5), 4);
    expect(fourth?.hz).toBeCloseTo(20, 9);
    expect(fourth?.u_hz).toBeCloseTo(4 * (plain?.u_hz ?? 0), 9);
  });
  it('are counted right where a tap was missed', () => {
    const times = train(20, 5).filter((_, i) => i !== 7 && i !== 12);
    expect(frequencyOf(times)?.hz).toBeCloseTo(5, 9);
  });
  it('begin anew after a pause, and never run backwards', () => {
    expect(withTap([1000, 1200], 1400)).toEqual([1000, 1200, 1400]);
    expect(withTap([1000, 1200], 1200 + PAUSE_MS + 1)).toEqual([1200 + PAUSE_MS + 1]);
    expect(withTap([1000, 1200], 1200)).toEqual([1200]);
  });
  it('lie within twice the uncertainty of the truth about 95 times in a hundred', () => {
    const { normal } = random(7);
    const runs = 2000;
    let within = 0;
    for (let run = 0; run < runs; run += 1) {
      const found = frequencyOf(train(20, 4.7, () => 22 * normal()));
      if (found && Math.abs(found.hz - 4.7) <= 2 * found.u_hz) within += 1;
    }
    expect(within / runs).toBeGreaterThan(0.91);
    expect(within / runs).toBeLessThan(0.975);
  });
  it('grow surer with each of them', () => {
    const { normal } = random(11);
    const times = train(60, 5, () => 20 * normal());
    const few = frequencyOf(times.slice(0, 10));
    const many = frequencyOf(times);
    expect(many?.u_hz ?? 1).toBeLessThan((few?.u_hz ?? 0) / 5);
  });
});
