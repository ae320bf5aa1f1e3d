import { describe, expect, it } from 'vitest';
import { type Burst, BurstDetector } from '../../web/src/measure/wedge';

/** The last answer after these keys, each so many milliseconds after the one before. */
function strike(detector: BurstDetector, keys: readonly string[], gap_ms: number, start_ms = 0): Burst | null {
  let last: Burst | null = null;
  keys.forEach((key, i) => {
    last = detector.feed(key, start_ms + i * gap_ms);
  });
  return last;
}

describe('a gauge on a cable', () => {
  it('is told by its speed, and its reading ends at Enter', () => {
    expect(strike(new BurstDetector(), [...'24.013', 'Enter'], 8, 100)).toEqual({ text: '24.013', began_ms: 100 });
  });

  it('may end its reading with Tab instead', () => {
    expect(strike(new BurstDetector(), [...'-0.012', 'Tab'], 5)?.text).toBe('-0.012');
  });

  it('may send its unit and blanks', () => {
    expect(strike(new BurstDetector(), [...'  +0.8360 in ', 'Enter'], 5)?.text).toBe('+0.8360 in');
  });

  it('is not a hand, however nimble', () => {
    expect(strike(new BurstDetector(), [...'24.013', 'Enter'], 60)).toBeNull();
  });

  it('is not a word that was typed fast, nor Enter alone', () => {
    expect(strike(new BurstDetector(), [...'rust', 'Enter'], 5)).toBeNull();
    expect(new BurstDetector().feed('Enter', 0)).toBeNull();
    expect(strike(new BurstDetector(), ['7', 'Enter'], 5)).toBeNull();
  });

  it('begins afresh after a pause, and is not broken by keys that type nothing', () => {
    const detector = new BurstDetector();
    strike(detector, ['9', '9'], 5);
    expect(strike(detector, ['Shift', ...'1.5', 'Shift', 'Enter'], 5, 400)?.text).toBe('1.5');
  });

  it('gives each reading once', () => {
    const detector = new BurstDetector();
    expect(strike(detector, [...'1.50', 'Enter'], 5)?.text).toBe('1.50');
    expect(detector.feed('Enter', 21)).toBeNull();
  });
});
