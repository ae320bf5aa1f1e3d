/** Times of the shop (UTC) on this tablet's clock, in the browser's own way of writing them. */
const clock = new Intl.DateTimeFormat(undefined, { hour: '2-digit', minute: '2-digit' });
const day = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', year: 'numeric' });
const dayInYear = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short' });

export const timeOfDay = (utc: string) => clock.format(new Date(utc));
export const calendarDay = (utc: string) => day.format(new Date(utc));

/** A day of this tablet's calendar without its year. */
export const dayAndMonth = (of: Date) => dayInYear.format(of);

/** A calendar day as the shop writes it, such as 2026-09-01; nothing where there is none. */
export const onDay = (written: string | null | undefined) => (written ? calendarDay(`${written}T12:00:00Z`) : '');

/** This tablet's calendar day, as the shop writes days. */
export function dayOf(now: Date): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

const HOUR_MIN = 60;

/** Hours and whole minutes; what is less than half a minute is none. */
export function hoursAndMinutes(minutes: number): { hours: number; minutes: number } {
  const whole = Math.round(minutes);
  return { hours: Math.floor(whole / HOUR_MIN), minutes: whole % HOUR_MIN };
}

/** The time alone for today, the day with it otherwise. */
export function moment(utc: string, now: Date): string {
  return new Date(utc).toDateString() === now.toDateString()
    ? timeOfDay(utc)
    : `${calendarDay(utc)}, ${timeOfDay(utc)}`;
}
