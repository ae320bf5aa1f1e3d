/** Times of the shop (UTC) on this tablet's clock, in the browser's own way of writing them. */
const clock = new Intl.DateTimeFormat(undefined, { hour: '2-digit', minute: '2-digit' });
const day = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', year: 'numeric' });

export const timeOfDay = (utc: string) => clock.format(new Date(utc));
export const calendarDay = (utc: string) => day.format(new Date(utc));

/** The time alone for today, the day with it otherwise. */
export function moment(utc: string, now: Date): string {
  return new Date(utc).toDateString() === now.toDateString()
    ? timeOfDay(utc)
    : `${calendarDay(utc)}, ${timeOfDay(utc)}`;
}
