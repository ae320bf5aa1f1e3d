import type { Act, Side } from './model';

/** A round dial with so many marks on it; a drag round it turns it, to whole marks. */
export const MARKS_ROUND = 50;
export const DEG_PER_MARK = 360 / MARKS_ROUND;
/** As many marks as one act turns. */
export const MOST_MARKS = 200;

/** The way from one direction to another, the short way round: above -180 to 180. */
export function swept(from_deg: number, to_deg: number): number {
  const way = (((to_deg - from_deg) % 360) + 360) % 360;
  return way > 180 ? way - 360 : way;
}

/** Direction of a finger from the middle of the dial: 0 upward, clockwise positive. */
export function directionOf(x: number, y: number): number {
  return ((((Math.atan2(x, -y) * 180) / Math.PI) % 360) + 360) % 360;
}

/** So near the middle, as a share of the radius, a finger has no direction. From use, no source. */
const MIDDLE = 0.2;

/** Direction of a finger on a dial of this radius; null at the middle, where a hair's breadth would be half a round. */
export const fingerAt = (x: number, y: number, radius: number): number | null =>
  Math.hypot(x, y) < MIDDLE * radius ? null : directionOf(x, y);

/** A drag as it goes on: where the finger was, and what it has turned that makes no whole mark yet. */
export interface Drag {
  at_deg: number | null;
  rest_deg: number;
}

/** The finger moves on to `to_deg`: whole marks that this turned the dial by, clockwise positive. */
export function dragged(drag: Drag, to_deg: number | null): { drag: Drag; marks: number } {
  if (to_deg === null || drag.at_deg === null) return { drag: { ...drag, at_deg: to_deg }, marks: 0 };
  const turned = drag.rest_deg + swept(drag.at_deg, to_deg);
  const marks = Math.trunc(turned / DEG_PER_MARK + Math.sign(turned) * 1e-9);
  return { drag: { at_deg: to_deg, rest_deg: turned - marks * DEG_PER_MARK }, marks: marks === 0 ? 0 : marks };
}

type DialTurn = Extract<Act, { do: 'turn_dial' }>;

/** Two turns of one dial as one act; null where they are none, or together more than one act turns. */
export function joinedTurn(before: Act | undefined, next: Act): DialTurn | null {
  if (before?.do !== 'turn_dial' || next.do !== 'turn_dial' || before.side !== next.side) return null;
  const marks = before.marks + next.marks;
  return Math.abs(marks) > MOST_MARKS ? null : { ...next, marks };
}

/** Marks of a dial that a finger has turned and that the shop has not answered yet. */
export function marksOnWay(pending: readonly Act[], side: Side): number {
  return pending.reduce((sum, act) => (act.do === 'turn_dial' && act.side === side ? sum + act.marks : sum), 0);
}

/** Where the dial's scale stands, in degrees that its zero has turned clockwise. */
export const scaleTurn = (dial_marks: number): number => dial_marks * DEG_PER_MARK;

/** The mark that stands at the index, 0 to one below a whole round. */
export const markAtIndex = (dial_marks: number): number =>
  ((Math.round(dial_marks) % MARKS_ROUND) + MARKS_ROUND) % MARKS_ROUND;
