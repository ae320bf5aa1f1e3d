import { dayOf } from '../show/time';

/** A week of this tablet's calendar, from Monday to Sunday. */
export interface Span {
  /** Its Monday, as the shop writes days; what stands in the address. */
  day: string;
  from: Date;
  /** The next Monday, which is not in it. */
  to: Date;
}

const DAYS = 7;
const WRITTEN = /^(20[0-9]{2})-([0-9]{2})-([0-9]{2})$/;

/** So many days from the Monday on or before a day. By the calendar, so that a change of the clocks costs no hour. */
const mondayOf = (day: Date, later = 0) =>
  new Date(day.getFullYear(), day.getMonth(), day.getDate() - ((day.getDay() + 6) % DAYS) + later);

const spanFrom = (day: Date, weeks = 0): Span => {
  const from = mondayOf(day, weeks * DAYS);
  return { day: dayOf(from), from, to: mondayOf(day, (weeks + 1) * DAYS) };
};

function dayWritten(text: string | undefined): Date | null {
  const found = WRITTEN.exec(text ?? '');
  if (!found) return null;
  const day = new Date(Number(found[1]), Number(found[2]) - 1, Number(found[3]));
  return dayOf(day) === text ? day : null;
}

/** The week of the day in the address; the present one where there is none, none that exists, or one to come. */
export function spanOf(text: string | undefined, now: Date): Span {
  const day = dayWritten(text);
  return spanFrom(day && day <= now ? day : now);
}

export const before = (span: Span): Span => spanFrom(span.from, -1);

/** The week after; nothing where it is still to come. */
export function after(span: Span, now: Date): Span | null {
  return span.to <= now ? spanFrom(span.to) : null;
}

/** Its last day. */
export const lastDay = (span: Span): Date => mondayOf(span.from, DAYS - 1);

export const inShop = (span: Span): { from: string; to: string } => ({
  from: span.from.toISOString(),
  to: span.to.toISOString(),
});
