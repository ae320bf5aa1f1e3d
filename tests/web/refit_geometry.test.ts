import { describe, expect, it } from 'vitest';
import { countedAlong } from '../../web/src/car/to_do_first';
import { runoutOfFlake } from '../../web/src/refit/flake';
import {
  placeFromWords,
  placeInWords,
  readTorque,
  showTorque,
  torqueFromWords,
  torqueInWords,
} from '../../web/src/refit/place';
import { starOrder, torqueStages } from '../../web/src/refit/star_order';
import { nextTurn, shortestTurn } from '../../web/src/refit/turn';
import { added } from '../../web/src/refit/whose';

/** How far two studs lie apart round the circle, as a share of half a turn. */
const across = (a: number, b: number, studs: number) => {
  const steps = Math.abs(a - b) % studs;
  return Math.min(steps, studs - steps) / (studs / 2);
};

describe('the star order of the nuts', () => {
  it.each([3, 4, 5, 6, 7, 8, 9, 10, 12])('draws up each of %i nuts once', (studs) => {
    expect([...starOrder(studs)].sort((a, b) => a - b)).toEqual(Array.from({ length: studs }, (_, i) => i));
  });

  it('goes crosswise over four, as a star over five, and pair after pair over six, eight and ten', () => {
    expect(starOrder(4)).toEqual([0, 2, 1, 3]);
    expect(starOrder(5)).toEqual([0, 2, 4, 1, 3]);
    expect(starOrder(6)).toEqual([0, 3, 1, 4, 2, 5]);
    expect(starOrder(8)).toEqual([0, 4, 2, 6, 1, 5, 3, 7]);
    expect(starOrder(10)).toEqual([0, 5, 2, 7, 4, 9, 1, 6, 3, 8]);
  });

  it.each([4, 5, 6, 8, 10, 12])('never goes on to the neighbour over %i nuts', (studs) => {
    const order = starOrder(studs);
    for (const [i, stud] of order.entries()) {
      const before = order[i - 1];
      if (before !== undefined) expect(across(stud, before, studs) * (studs / 2)).toBeGreaterThan(1 - 1e-9);
      if (before !== undefined && studs > 4) expect(across(stud, before, studs)).toBeGreaterThanOrEqual(0.3);
    }
    expect(across(order[0] ?? 0, order[1] ?? 0, studs)).toBeGreaterThanOrEqual(0.8);
  });

  it('comes to the whole torque in stages', () => {
    expect(torqueStages(110)).toEqual([33, 66, 110]);
    expect(torqueStages(102.5)).toEqual([31, 62, 102.5]);
  });
});

describe('turning a rotor on its studs', () => {
  it('takes the shorter way round', () => {
    expect(shortestTurn(2, 5, 'clockwise')).toEqual({ by: 2, sense: 'clockwise' });
    expect(shortestTurn(4, 5, 'clockwise')).toEqual({ by: 1, sense: 'anticlockwise' });
    expect(shortestTurn(3, 4, 'anticlockwise')).toEqual({ by: 1, sense: 'clockwise' });
    expect(shortestTurn(2, 4, 'clockwise')).toEqual({ by: 2, sense: 'clockwise' });
    expect(shortestTurn(0, 6, 'clockwise')).toEqual({ by: 0, sense: 'clockwise' });
  });

  it('counts the studs along the way from the hub’s mark', () => {
    expect(countedAlong({ by: 2, sense: 'clockwise' }, 5, 'clockwise')).toEqual(['', '1', '2', '', '']);
    expect(countedAlong({ by: 2, sense: 'anticlockwise' }, 5, 'clockwise')).toEqual(['', '', '', '2', '1']);
  });

  it('asks next for a position in which no low pattern looks as it did', () => {
    expect(nextTurn([0], 5)).toBe(2);
    expect([1, 3]).toContain(nextTurn([0], 4));
    const six = nextTurn([0], 6) ?? 0;
    for (const order of [1, 2]) expect(Math.abs(Math.sin((Math.PI * order * six) / 6))).toBeGreaterThan(0.4);
    expect(nextTurn([0, 1, 2, 3], 4)).toBeNull();
  });

  it('begins with the part as it came, where nothing is read yet', () => {
    expect(nextTurn([], 5)).not.toBe(0);
  });
});

describe('a flake of rust under the hat', () => {
  it('comes out larger at the rotor by its radius over that of the flange', () => {
    // 130/70 = 1.86: plane geometry.
    expect(runoutOfFlake(25.4, 130, 70)).toBeCloseTo(25.4 * 1.857, 1);
    expect(runoutOfFlake(50, 70, 70)).toBe(50);
  });
});

describe('how a part went on, in words', () => {
  it.each([
    { turned: 0, plate: null, reason: '' },
    { turned: 1, plate: null, reason: 'the hub’s mark\nis gone; see there' },
    { turned: 3, plate: { name: 'Plate, 50', position: 2 }, reason: '' },
    { turned: 3, plate: { name: 'Plate; 50', position: 0 }, reason: 'plate at hand; because: none' },
  ])('is read again as it was written: %o', (place) => {
    expect(placeFromWords(placeInWords(place))).toEqual(place);
  });

  it('is nothing where it is something else', () => {
    expect(placeFromWords('cloth not clean')).toBeNull();
  });
});

describe('the torque of the nuts', () => {
  it('is taken in newton metres or pound-feet, and in nothing else', () => {
    expect(readTorque('110', 'nm')).toBe(110);
    expect(readTorque('102,5', 'nm')).toBe(102.5);
    // 1 lbf·ft is 1.3558 N·m by the definitions of pound, foot and standard gravity.
    expect(readTorque('80', 'lbft')).toBe(108.5);
    for (const text of ['', 'tight', '0', '-5', '1200', '1 1/2']) expect(readTorque(text, 'nm')).toBeNull();
    expect(showTorque(108.5, 'lbft')).toBe('80');
  });

  it('is read again as it was ticked, with where it stands', () => {
    const torque = { nm: 108.5, source: 'owner’s book; page 212' };
    expect(torqueFromWords(torqueInWords(torque))).toEqual(torque);
    expect(torqueFromWords('110 N·m')).toBeNull();
  });
});

describe('hub and rotor together', () => {
  it('add as arrows: opposite ones take each other away', () => {
    expect(added({ amplitude_um: 10, phase_deg: 30 }, { amplitude_um: 10, phase_deg: 210 }).amplitude_um).toBeCloseTo(
      0,
    );
    const right = added({ amplitude_um: 3, phase_deg: 0 }, { amplitude_um: 4, phase_deg: 90 });
    expect(right.amplitude_um).toBeCloseTo(5);
    expect(right.phase_deg).toBeCloseTo(53.13, 2);
  });
});
