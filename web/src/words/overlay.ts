/** What another kind of part is called otherwise: any of the words, each of the same shape. */
export type Otherwise<T> = T extends string
  ? string
  : T extends (...given: infer A) => infer R
    ? (...given: A) => Otherwise<R>
    : T extends readonly unknown[]
      ? readonly string[]
      : { [K in keyof T]?: Otherwise<T[K]> };

type Room = Record<string, unknown>;

const isRoom = (value: unknown): value is Room => typeof value === 'object' && value !== null && !Array.isArray(value);

function laidOver(words: Room, otherwise: Room): Room {
  const said = { ...words };
  for (const [name, other] of Object.entries(otherwise)) {
    const base = said[name];
    said[name] = isRoom(base) && isRoom(other) ? laidOver(base, other) : other;
  }
  return said;
}

/** The words with some of them said otherwise; what is not named stays. */
export const overlay = <T extends object>(words: T, otherwise: Otherwise<T>): T =>
  laidOver(words as Room, otherwise as Room) as T;
