import { type Column, placesOf } from './columns';
import { kindOfRow, type Row } from './rows';

/** A cell of the grid. */
export interface Spot {
  row: number;
  place: number;
}

const places = (row: Row | undefined): readonly (Column | null)[] => placesOf(row ? kindOfRow(row) : null);

/** The next cell that can be typed in, to the right and then in the row below; a row past the last is a new one. */
export function nextSpot(rows: readonly Row[], { row, place }: Spot): Spot {
  const here = places(rows[row]);
  for (let next = place + 1; next < here.length; next += 1) if (here[next]) return { row, place: next };
  return { row: row + 1, place: 0 };
}

/** The cell to the left, or null at the beginning of a row. */
export function spotBefore(rows: readonly Row[], { row, place }: Spot): Spot | null {
  const here = places(rows[row]);
  for (let next = place - 1; next >= 0; next -= 1) if (here[next]) return { row, place: next };
  return null;
}

/** The same place in another row, or the nearest one to its left that can be typed in there. */
export function spotInRow(rows: readonly Row[], row: number, place: number): Spot | null {
  if (row < 0 || row >= rows.length) return null;
  const there = places(rows[row]);
  for (let next = Math.min(place, there.length - 1); next >= 0; next -= 1) if (there[next]) return { row, place: next };
  return null;
}
