import type { Turning } from '../pictures/ring_geometry';

/** How a part is turned on its hub: the shorter way round. */
export interface Turn {
  /** Studs to turn by; 0 leaves it on its mark. */
  by: number;
  sense: Turning;
}

const other = (turning: Turning): Turning => (turning === 'clockwise' ? 'anticlockwise' : 'clockwise');

/** `turned` studs in the sense of the angles, as the hand does it: four of five clockwise is one anticlockwise. */
export function shortestTurn(turned: number, studs: number, turning: Turning): Turn {
  const ahead = ((turned % studs) + studs) % studs;
  return 2 * ahead <= studs ? { by: ahead, sense: turning } : { by: studs - ahead, sense: other(turning) };
}

/** Orders that tell hub and part apart for practical purposes: a tilt, an oval, a triangle. */
const ORDERS = [1, 2, 3] as const;

const ALIKE = 1e-9;

/** How far two positions lie apart for a pattern of so many waves per turn, from 0 (alike) to 2. */
const apart = (a: number, b: number, studs: number, order: number) =>
  2 * Math.abs(Math.sin((Math.PI * order * (a - b)) / studs));

/**
 * The next position to read in: the one that tells most of hub and part apart beside those that are read already. Of
 * equals the one that shows the tilt best. Null when every position is read.
 */
export function nextTurn(read: readonly number[], studs: number): number | null {
  const from = read.length > 0 ? read : [0];
  const free = Array.from({ length: studs }, (_, turned) => turned).filter((turned) => !from.includes(turned));
  const seen = (turned: number, order: number) => Math.max(...from.map((one) => apart(turned, one, studs, order)));
  const worst = (turned: number) =>
    Math.min(...ORDERS.filter((order) => order % studs !== 0).map((order) => seen(turned, order)));
  const rank = (turned: number) => [worst(turned), seen(turned, 1)] as const;
  const better = (a: number, b: number) => {
    const [one, two] = [rank(a), rank(b)];
    if (Math.abs(one[0] - two[0]) > ALIKE) return two[0] - one[0];
    return Math.abs(one[1] - two[1]) > ALIKE ? two[1] - one[1] : a - b;
  };
  return free.sort(better)[0] ?? null;
}
