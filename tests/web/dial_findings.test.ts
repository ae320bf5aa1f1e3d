import { describe, expect, it } from 'vitest';
import { likelyFirst, sharedLead, withoutLead } from '../../web/src/check/findings';

const texts = [
  'Dialled 400 um; 340 um should be gone: 38 um less; twice the uncertainty is 53 um.',
  'Dialled 400 um; 340 um should be gone: 38 um less; some marks would make that.',
  'A part that was 28 K warmer would read 7 um thicker: iron grows.',
];

describe('what may have happened', () => {
  it('is told from the most probable on, what is improbable apart', () => {
    const findings = [{ p: 0.36 }, { p: 0.27 }, { p: 0.17 }, { p: 0.13 }, { p: 0.03 }];
    expect(likelyFirst(findings).likely.map((one) => one.p)).toEqual([0.36, 0.27, 0.17]);
    expect(likelyFirst(findings).rest.map((one) => one.p)).toEqual([0.13, 0.03]);
    expect(likelyFirst([{ p: 0.1 }, { p: 0.05 }]).likely).toEqual([{ p: 0.1 }]);
    expect(likelyFirst([])).toEqual({ likely: [], rest: [] });
  });
  it('says once what several have in common', () => {
    const lead = sharedLead(texts);
    expect(lead).toBe('Dialled 400 um; 340 um should be gone: 38 um less;');
    expect(texts.map((text) => withoutLead(text, lead))).toEqual([
      'Twice the uncertainty is 53 um.',
      'Some marks would make that.',
      texts[2],
    ]);
  });
  it('is left as it is where nothing is shared', () => {
    expect(sharedLead(texts.slice(1))).toBe('');
    expect(withoutLead(texts[2] as string, '')).toBe(texts[2]);
  });
});
