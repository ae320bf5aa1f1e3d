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

  it('of a drum name no rotor in any room but those named here', () => {
    // The shop's own rooms and its board are of no job; at arrival the kind of part is still being chosen.
    const outside = /^(?:board|shop|arrival\.complaint)\./;
    // A drum is not read on its hub, and no heat of it is counted: nobody comes there with one.
    const of_discs_alone =
      /^(?:car\.(?!drum|setup\.studs)|refit\.(?:whose|flake|check|positions|missing_field|no_limit|plate_lines)|road\.(?:missing|settings\.cheek))/;
    const about_discs = sentences(wordsOf('drum')).filter(([, text]) => /\brotors?\b/i.test(text));
    const met = about_discs.filter(([at]) => !outside.test(at) && !of_discs_alone.test(at));
    expect(met).toEqual([]);
  });

  it('of a drum back on the car and on the road name no pad, hat or face', () => {
    const { steps, nuts, card, turn_lines, mark_washed, nothing, nothing_do } = wordsOf('drum').refit;
    const { felt, no_promise, part } = wordsOf('drum').road;
    const { runout_checked: _, nuts_by_hand: __, ...met } = steps;
    const said = sentences({ met, nuts, card, turn_lines, mark_washed, nothing, nothing_do, felt, no_promise, part });
    expect(said.filter(([, text]) => /\b(?:pads?|hats?|discs?|faces?)\b/i.test(text))).toEqual([]);
  });

  it('keep what a function answers where it is said otherwise', () => {
    expect(wordsOf('drum').refit.turn_lines(0, 'clockwise')).toHaveLength(2);
    expect(wordsOf('disc').refit.turn_lines(0, 'clockwise')).toHaveLength(1);
  });
});
