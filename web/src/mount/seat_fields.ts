import type { Part, Seat } from '../api/schema';
import { isDrum } from '../show/part_kind';

/** What of a rotor is measured for the stack, each with the letter of its arrow in the picture. */
export type SeatName = keyof Seat | 'outer_diameter';

/** Outside of these a figure may be in the other unit, or a slip: our own, no source. */
export const PLAUSIBLE_MM: Record<SeatName, [number, number]> = {
  bore: [30, 200],
  flange: [3, 30],
  flat_inner: [30, 250],
  flat_outer: [50, 300],
  flat_inner_inboard: [30, 250],
  flat_outer_inboard: [50, 300],
  hub_length: [30, 200],
  inner_race: [20, 150],
  outer_race: [20, 150],
  ring_inner: [80, 400],
  outer_diameter: [100, 600],
};

export interface SeatField {
  name: SeatName;
  letter: string;
  /** The stack cannot be worked out without it. */
  needed: boolean;
}

const named = (names: readonly SeatName[], needed: readonly SeatName[]): SeatField[] =>
  names.map((name, i) => ({ name, letter: 'ABCDEFGH'[i] ?? '', needed: needed.includes(name) }));

const HUBLESS = named(
  [
    'bore',
    'flange',
    'flat_inner',
    'flat_outer',
    'flat_inner_inboard',
    'flat_outer_inboard',
    'ring_inner',
    'outer_diameter',
  ],
  ['bore', 'flange', 'flat_inner', 'flat_outer'],
);
const HUBBED = named(
  ['hub_length', 'inner_race', 'outer_race', 'ring_inner', 'outer_diameter'],
  ['hub_length', 'inner_race', 'outer_race'],
);

/** A drum has no ring whose inner edge matters. */
const bored = (fields: readonly SeatField[]) => {
  const left = fields.filter(({ name }) => name !== 'ring_inner');
  return named(
    left.map(({ name }) => name),
    left.filter(({ needed }) => needed).map(({ name }) => name),
  );
};

export function seatFields(part: Pick<Part, 'construction' | 'kind'>): readonly SeatField[] {
  const fields = part.construction === 'integral_hub' ? HUBBED : HUBLESS;
  return isDrum(part) ? bored(fields) : fields;
}

/** What the shop says is missing, sorted by where it is mended. */
export interface Missing {
  seat: readonly string[];
  lathe: readonly string[];
  noLathe: boolean;
  noPieces: boolean;
}

export function missingOf(missing: readonly string[]): Missing {
  const under = (start: string) =>
    missing.filter((one) => one.startsWith(start)).map((one) => one.slice(start.length).replace(/_nm$/, ''));
  return {
    seat: under('seat.'),
    lathe: under('lathe.'),
    noLathe: missing.includes('lathe'),
    noPieces: missing.includes('pegboard'),
  };
}

export const seatValue = (part: Part, name: SeatName) =>
  (name === 'outer_diameter' ? part.outer_diameter : part.seat?.[name]) ?? null;
