import { afterEach, describe, expect, it } from 'vitest';
import { rooms, spokenOf, words, wordsOf } from '../../web/src/words';

afterEach(() => {
  spokenOf.value = 'disc';
});

/** Every sentence of a room with its path; of a function what it says of two words. */
function sentences(room: object, path = ''): [string, string][] {
  return Object.entries(room).flatMap(([name, said]): [string, string][] => {
    const at = path ? `${path}.${name}` : name;
    if (typeof said === 'string') return [[at, said]];
    if (typeof said === 'function') {
      try {
        return [[at, String(said('left', 'right', 'left'))]];
      } catch {
        return [[at, String(said)]];
      }
    }
    return said && typeof said === 'object' ? sentences(said, at) : [];
  });
}

describe('the words', () => {
  it('are the rotor’s until the part on the bench is a drum, and are so again after it', () => {
    expect(words.limits.names.nominal).toBe('Thickness when new');
    spokenOf.value = 'drum';
    expect(words.limits.names.nominal).toBe('Diameter when new');
    expect(words.trade.rotor('left')).toBe('Left drum');
    spokenOf.value = 'disc';
    expect(words.trade.rotor('left')).toBe('Left rotor');
  });

  it('that a drum says not otherwise are the rotor’s own', () => {
    expect(wordsOf('drum').limits.sources).toEqual(rooms.limits.sources);
    expect(wordsOf('drum').shop).toBe(rooms.shop);
  });

  it('of a drum in a hat are the drum’s but for the hat and the disc', () => {
    expect(wordsOf('drum_in_hat').mount.seat.names.flange).toBe('Thickness of the flange');
    expect(wordsOf('drum_in_hat').limits.names).toEqual(wordsOf('drum').limits.names);
  });

  it('of a drum name no rotor in the rooms of its job', () => {
    const of = wordsOf('drum');
    const { look, measure, verdict, mount, plan, cut, guide, finish, check } = of;
    const spoken = sentences({ look, measure, verdict, mount, plan, cut, guide, finish, check });
    expect(spoken.filter(([, text]) => /\brotors?\b/i.test(text))).toEqual([]);
    expect(sentences({ limits: of.limits }).filter(([, text]) => /\brotors?\b/i.test(text))).toEqual([]);
  });
});
