/** A time in hours and minutes, without the one that is nothing. */
export const duration = (hours: number, minutes: number) =>
  [hours ? `${hours} h` : '', minutes || !hours ? `${minutes} min` : ''].filter(Boolean).join(' ');
