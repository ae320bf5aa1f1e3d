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
const UNIT = /(?:^|[\s_([])(nm|[uµμ]m|mm|in|inch|inches|[uµμ]in|mil|thou)[)\]]?$/i;

interface Row {
  cells: string[];
  line: number;
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

const unitIn = (cell: string | undefined): string | null => UNIT.exec(cell ?? '')?.[1]?.toLowerCase() ?? null;

/** The text's lines of numbers, and the headings over them. */
function rowsOf(text: string): { rows: Row[]; heading: string[] } | { wrong: ProfileWrong; line: number } {
  const rows: Row[] = [];
  let heading: string[] = [];
  for (const [i, raw] of text.split(/\r\n|\r|\n/).entries()) {
    const line = raw.replace(/^\uFEFF/, '');
    if (line.trim() === '' || line.trim().startsWith('#')) continue;
    const plain = line.replace(/"(-?[0-9.,]+)"/g, '$1');
    if (!IS_DATA.test(plain)) {
      if (rows.length > 0) return { wrong: /["″]|\bin\b/i.test(plain) ? 'inches' : 'letters', line: i + 1 };
      heading = cellsOf(line);
    } else if (hasDecimalCommas(plain)) {
      return { wrong: 'decimal_commas', line: i + 1 };
    } else {
      rows.push({ cells: cellsOf(plain), line: i + 1 });
      if (rows.length > MOST_POINTS) return { wrong: 'too_long', line: 0 };
    }
  }
  return rows.length > 0 ? { rows, heading } : { wrong: heading.length > 0 ? 'letters' : 'empty', line: 0 };
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
  const { rows, heading } = found;
  const columns = rows[0]?.cells.length ?? 0;
  const odd = rows.find((row) => row.cells.length !== columns || columns > 2);
  if (odd) return { wrong: 'columns', line: odd.line };
  const units = heading.length === columns ? heading.map(unitIn) : [];
  if (units.some((unit) => unit !== null && !(unit in UM_PER))) return { wrong: 'inches', line: 0 };
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
  const last_place_um = x_scale * lastPlaceOf(rows.map((row) => row.cells[0] ?? ''));
  const spacing = rows.length > 1 ? spacingOf(column(0, x_scale), last_place_um) : null;
  if (spacing === null) {
    const noPoints = rows.every((row) => row.cells.every((cell) => !cell.includes('.')));
    return { wrong: noPoints && text.includes(',') ? 'decimal_commas' : 'uneven', line: 0 };
  }
  if (height_um > MOST_HEIGHT_UM) return { wrong: 'heights', line: 0 };
  return { profile: { spacing_um: Number(spacing.toPrecision(6)), z_um } };
}
