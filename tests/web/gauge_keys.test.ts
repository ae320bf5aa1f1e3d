import { describe, expect, it } from 'vitest';
import { burstsOf } from '../../web/src/shop/gauge_keys';

const typed = (keys: readonly string[], start_ms: number, gap_ms: number) =>
  keys.map((key, i) => ({ key, at_ms: start_ms + i * gap_ms }));

describe('what a gauge’s cable types', () => {
  it('is one reading up to Enter, with the time between its keys', () => {
    expect(burstsOf(typed([...'21.234', 'Enter'], 0, 10))).toEqual([
      { text: '21.234', keys: [...'21.234', 'Enter'], ended_by: 'Enter', gap_ms: 10 },
    ]);
  });
  it('is split at Tab and at a pause, and tells when nothing ended it', () => {
    const keys = [...typed([...'0.8', 'Tab'], 0, 8), ...typed([...'0.9'], 40, 8), ...typed(['7'], 5000, 8)];
    expect(burstsOf(keys).map((one) => [one.text, one.ended_by])).toEqual([
      ['0.8', 'Tab'],
      ['0.9', null],
      ['7', null],
    ]);
  });
  it('keeps keys that are no letters in sight', () => {
    expect(burstsOf(typed(['Shift', 'F5', '1', 'Enter'], 0, 5))[0]?.keys).toEqual(['F5', '1', 'Enter']);
  });
});
