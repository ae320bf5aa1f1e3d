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

/** A drag as it goes on: where the finger was, and what it has turned that makes no whole mark yet. */
export interface Drag {
  at_deg: number;
  rest_deg: number;
}

/** The finger moves on to `to_deg`: whole marks that this turned the dial by, clockwise positive. */
export function dragged(drag: Drag, to_deg: number): { drag: Drag; marks: number } {
  const turned = drag.rest_deg + swept(drag.at_deg, to_deg);
  const marks = Math.trunc(turned / DEG_PER_MARK + Math.sign(turned) * 1e-9);
  return { drag: { at_deg: to_deg, rest_deg: turned - marks * DEG_PER_MARK }, marks: marks === 0 ? 0 : marks };
}

/** What of the marks that are still to be turned goes in one act. */
export const inOneAct = (marks: number): number => Math.max(-MOST_MARKS, Math.min(MOST_MARKS, marks));

/** Where the dial's scale stands, in degrees that its zero has turned clockwise. */
export const scaleTurn = (dial_marks: number): number => dial_marks * DEG_PER_MARK;

/** The mark that stands at the index, 0 to one below a whole round. */
export const markAtIndex = (dial_marks: number): number =>
  ((Math.round(dial_marks) % MARKS_ROUND) + MARKS_ROUND) % MARKS_ROUND;
