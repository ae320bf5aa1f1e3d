/** A stylus profile as text: heights under each other, or places and heights in two columns. */
export interface StylusProfile {
  spacing_um: number;
  z_um: number[];
}

/** Why a text is no profile. */
export type ProfileWrong =
  | 'empty'
  | 'letters'
  | 'decimal_commas'
  | 'inches'
  | 'columns'
  | 'uneven'
  | 'too_long'
  | 'heights';

export type ProfileRead =
  | { profile: StylusProfile }
  /** One column: how far apart the points lie has to be told. */
  | { wants: 'spacing'; count: number }
  /** `line` counts from 1; 0 where it is not about one line. */
  | { wrong: ProfileWrong; line: number };

export const MOST_POINTS = 200_000;
/** Heights that differ by more are hardly micrometres of a turned face: common practice, no source. */
const MOST_HEIGHT_UM = 1000;
const IS_DATA = /^[-+0-9.,;eE\s]*[0-9][-+0-9.,;eE\s]*$/;
const DECIMAL_COMMA = /^[-+]?[0-9]+,[0-9]+$/;
const UM_PER: Record<string, number> = { nm: 1e-3, um: 1, µm: 1, μm: 1, mm: 1e3 };
const UNIT = /(?:^|[_([])(nm|[uµμ]m|mm|in|inch|inches|[uµμ]in|mil|thou)[)\]]?$/i;
const IS_NUMBER = /^[-+]?[0-9.]+$/;

interface Row {
  cells: string[];
  line: number;
  /** A comma stands between its cells. */
  commas: boolean;
}

const cellsOf = (line: string): string[] => {
  const between = /[;\t]/.test(line) ? /[;\t]/ : line.includes(',') ? ',' : /\s+/;
  return line
    .trim()
    .split(between)
    .map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'));
};

/** Commas that can only stand for points: beside another mark between columns, or where a comma splits each number. */
const hasDecimalCommas = (line: string): boolean => {
  const pieces = line.trim().split(/[;\t ]+/);
  return (pieces.length > 1 && pieces.some((piece) => DECIMAL_COMMA.test(piece))) || line.split(',').length === 4;
};

/**
 * A line's words, each with the unit that it says: none beside a number, as in "Cut-off 0.8 mm", and "in" is inches only
 * where it is no preposition, as in "Height in nm".
 */
function unitsSaid(line: string): (string | null)[] {
  const said = line.split(/[\s,;:="]+/).filter((word) => word !== '');
  const units = said.map((word) => UNIT.exec(word)?.[1]?.toLowerCase() ?? null);
  const isUnit = (at: number) => (units[at] ?? null) !== null;
  const last = said.length - 1;
  return units.map((unit, i) => {
    if (IS_NUMBER.test(said[i - 1] ?? '') || IS_NUMBER.test(said[i + 1] ?? '')) return null;
    const stands_last = i === last || (i + 2 === last && !isUnit(i + 1) && isUnit(last));
    return said[i]?.toLowerCase() === 'in' && !stands_last ? null : unit;
  });
}

const unitAtEnd = (text: string): string | null => unitsSaid(text).at(-1) ?? null;
const isInch = (unit: string | null) => unit !== null && !(unit in UM_PER);

/** The columns' units as a heading tells them; none where it does not say whose they are, but inches all the same. */
function unitsOfHeading(heading: string, columns: number): (string | null)[] {
  if (columns === 1) return [unitAtEnd(heading)];
  const cells = cellsOf(heading);
  if (cells.length === columns) return cells.map(unitAtEnd);
  const said = unitsSaid(heading).filter((unit) => unit !== null);
  return said.length === columns ? said : said.filter((unit) => isInch(unit) && unit !== 'in');
}

/** The units of the last heading that says any. */
const unitsOf = (headings: readonly string[], columns: number): (string | null)[] =>
  headings.reduce<(string | null)[]>((units, heading) => {
    const said = unitsOfHeading(heading, columns);
    return said.some((unit) => unit !== null) ? said : units;
  }, []);

/** The text's lines of numbers, and the headings over them; a remark may be one. */
function rowsOf(text: string): { rows: Row[]; headings: string[] } | { wrong: ProfileWrong; line: number } {
  const rows: Row[] = [];
  const headings: string[] = [];
  let letters = false;
  for (const [i, raw] of text.split(/\r\n|\r|\n/).entries()) {
    const line = raw.replace(/^\uFEFF/, '').trim();
    if (line === '') continue;
    if (line.startsWith('#')) {
      if (rows.length === 0) headings.push(line.replace(/^#+\s*/, ''));
      continue;
    }
    const plain = line.replace(/"(-?[0-9.,]+)"/g, '$1');
    if (!IS_DATA.test(plain)) {
      if (rows.length > 0) return { wrong: /["″]|\bin\b/i.test(plain) ? 'inches' : 'letters', line: i + 1 };
      headings.push(line);
      letters = true;
    } else if (hasDecimalCommas(plain)) {
      return { wrong: 'decimal_commas', line: i + 1 };
    } else {
      rows.push({ cells: cellsOf(plain), line: i + 1, commas: plain.includes(',') });
      if (rows.length > MOST_POINTS) return { wrong: 'too_long', line: 0 };
    }
  }
  return rows.length > 0 ? { rows, headings } : { wrong: letters ? 'letters' : 'empty', line: 0 };
}

/** How many decimals a number is printed to; "5e-4" to four. */
const decimalsOf = (cell: string): number => {
  const [digits = '', power = '0'] = cell.toLowerCase().split('e');
  return (digits.split('.')[1]?.length ?? 0) - Number(power);
};

/** What one step of a column's last printed decimal is, in its own unit. */
const lastPlaceOf = (cells: readonly string[]): number =>
  10 ** -cells.reduce((most, cell) => Math.max(most, decimalsOf(cell)), 0);

/** Evenly spaced within what the places are rounded to; rising or falling. Null where they are not. */
function spacingOf(x_um: readonly number[], last_place_um: number): number | null {
  const first = x_um[0] as number;
  const step = ((x_um.at(-1) as number) - first) / (x_um.length - 1);
  const most_off = 1.05 * last_place_um + 0.05 * Math.abs(step);
  const even = step !== 0 && x_um.every((x, i) => Math.abs(x - first - i * step) <= most_off);
  return even ? Math.abs(step) : null;
}

/**
 * Reads a profile: `x_mm,z_um` by line, or heights in micrometres alone with a spacing told. Headings may say other
 * metric units. Decimal commas and inches are told, not guessed at.
 */
export function readProfile(text: string, spacing_um: number | null): ProfileRead {
  const found = rowsOf(text);
  if ('wrong' in found) return found;
  const { rows, headings } = found;
  const columns = rows[0]?.cells.length ?? 0;
  const odd = rows.find((row) => row.cells.length !== columns || columns > 2);
  if (odd) return { wrong: 'columns', line: odd.line };
  const units = unitsOf(headings, columns);
  if (units.some(isInch)) return { wrong: 'inches', line: 0 };
  const bad = rows.find((row) => row.cells.some((cell) => cell === '' || !Number.isFinite(Number(cell))));
  if (bad) return { wrong: 'letters', line: bad.line };
  const scaleOf = (at: number, otherwise: number) => UM_PER[units[at] ?? ''] ?? otherwise;
  const column = (at: number, scale: number) =>
    rows.map((row) => Number((Number(row.cells[at]) * scale).toPrecision(12)));
  const z_um = column(columns - 1, scaleOf(columns - 1, 1));
  const height_um =
    z_um.reduce((high, z) => Math.max(high, z), -Infinity) - z_um.reduce((low, z) => Math.min(low, z), Infinity);
  if (columns === 1) {
    if (height_um > MOST_HEIGHT_UM) return { wrong: 'heights', line: 0 };
    return spacing_um === null ? { wants: 'spacing', count: rows.length } : { profile: { spacing_um, z_um } };
  }
  const x_scale = scaleOf(0, 1e3);
  // Whole numbers with commas may be decimal commas of heights alone: as places they would have to be even, unrounded.
  const doubtful = rows.every((row) => row.commas && row.cells.every((cell) => !cell.includes('.')));
  const last_place_um = doubtful ? 0 : x_scale * lastPlaceOf(rows.map((row) => row.cells[0] ?? ''));
  const spacing = rows.length > 1 ? spacingOf(column(0, x_scale), last_place_um) : null;
  if (spacing === null) return { wrong: doubtful ? 'decimal_commas' : 'uneven', line: 0 };
  if (height_um > MOST_HEIGHT_UM) return { wrong: 'heights', line: 0 };
  return { profile: { spacing_um: Number(spacing.toPrecision(6)), z_um } };
}
