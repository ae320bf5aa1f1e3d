/** About what a letter of a picture's words takes. */
export const PX_A_LETTER = 8;

/** A name as it fits into so many pixels of a picture. */
export const shortened = (name: string, width: number): string => {
  const most = Math.max(3, Math.floor(width / PX_A_LETTER));
  return name.length > most ? `${name.slice(0, most - 1)}…` : name;
};
