import type { Unit } from '../api/schema';
import { type Column, kindOf, LENGTHS, placesOf } from './columns';
import { type Cells, unitOf } from './rows';

/**
 * A block from a spreadsheet as rows of texts: parted by tabs, else by semicolons, else by commas; a cell in quotes may
 * hold what parts cells. Where tabs or semicolons part them, a comma inside a number is a decimal one and stays.
 */
export function blockOf(text: string): string[][] {
  const lines = text.replace(/\r\n?/g, '\n').replace(/^sep=.*\n/i, '');
  const mark = lines.includes('\t') ? '\t' : lines.includes(';') ? ';' : ',';
  const rows: string[][] = [[]];
  let piece = '';
  let quoted = false;
  const ended = () => {
    rows.at(-1)?.push(piece.trim());
    piece = '';
  };
  for (let i = 0; i < lines.length; i += 1) {
    const sign = lines[i] as string;
    if (quoted) {
      if (sign === '"' && lines[i + 1] === '"') {
        piece += '"';
        i += 1;
      } else if (sign === '"') quoted = false;
      else piece += sign;
    } else if (sign === '"' && piece.trim() === '') quoted = true;
    else if (sign === mark) ended();
    else if (sign === '\n') {
      ended();
      rows.push([]);
    } else piece += sign;
  }
  ended();
  return rows.filter((row) => row.some((one) => one !== ''));
}

const HEADINGS: Record<Column, readonly string[]> = {
  name: ['name', 'piece', 'adapter', 'mark', 'stamp'],
  kind: ['kind', 'type', 'what'],
  hook: ['hook', 'place', 'peg'],
  unit: ['unit', 'units'],
  bore: ['bore', 'arbor', 'hole'],
  length: ['length', 'long', 'width', 'height'],
  small: ['small', 'small end', 'small diameter'],
  large: ['large', 'large end', 'large diameter', 'big', 'big end'],
  ring_inner: ['ring inner', 'inner ring', 'ring inside'],
  ring_outer: ['ring outer', 'outer ring', 'ring outside'],
  cup_bore: ['cup bore', 'cup diameter'],
  cup_depth: ['cup depth', 'cup'],
  solid: ['solid', 'pressed'],
  free: ['free', 'free length'],
  outside: ['outside', 'stands out'],
  is: ['is', 'damping', 'weighted'],
  runout_um: ['runout', 'runout um'],
  note: ['note', 'notes', 'remark'],
};

export interface Heading {
  column: Column;
  /** The unit that the heading names for its column, such as "bore (in)". */
  unit: Unit | null;
  /** A column of yes and no under the name of what a yes means. */
  yes?: 'damping' | 'weighted';
}

/** What a heading means, or null: its words without unit, brackets and underscores. */
export function headingOf(text: string): Heading | null {
  const words = text
    .toLowerCase()
    .replace(/[_()[\]/,.]+/g, ' ')
    .replace(/µ/g, 'u')
    .trim()
    .split(/\s+/);
  const last = words.at(-1) ?? '';
  const unit = words.length > 1 && !(last === 'um') ? unitOf(last) : null;
  const bare = (unit || last === 'um' ? words.slice(0, -1) : words).join(' ');
  for (const [column, names] of Object.entries(HEADINGS) as [Column, readonly string[]][]) {
    if (!names.includes(bare)) continue;
    return bare === 'damping' || bare === 'weighted' ? { column, unit, yes: bare } : { column, unit };
  }
  return null;
}

/** A header row's columns where most of its cells are headings and one of them is the name or the kind; else null. */
export function headerOf(row: readonly string[]): (Heading | null)[] | null {
  const found = row.map(headingOf);
  const known = found.filter((one) => one !== null);
  const tells = known.some((one) => one.column === 'name' || one.column === 'kind');
  return tells && known.length * 2 > row.filter((one) => one !== '').length ? found : null;
}

const YES = /^(?:1|x|y|yes|true|ja|oui)$/i;

/** What a block means: each of its rows as the cells of one piece. `headed` tells whether it named its columns. */
export function piecesOfBlock(block: readonly (readonly string[])[]): { headed: boolean; rows: Cells[] } {
  const [first, ...rest] = block;
  const header = first ? headerOf(first) : null;
  if (!header) return { headed: false, rows: block.map(byPlace) };
  return { headed: true, rows: rest.map((row) => byHeading(header, row)) };
}

function byHeading(header: readonly (Heading | null)[], row: readonly string[]): Cells {
  const cells: Cells = {};
  let unit: Unit | null = null;
  for (const [i, heading] of header.entries()) {
    const text = row[i] ?? '';
    if (!heading || text === '') continue;
    if (heading.yes) {
      if (YES.test(text)) cells.is = [cells.is ?? '', heading.yes].join(' ').trim();
    } else cells[heading.column] = text;
    if (heading.unit && LENGTHS.includes(heading.column)) unit = heading.unit;
  }
  if (unit && !cells.unit) cells.unit = unit;
  return cells;
}

/** Without headings the cells stand in the order of the grid, from its first place on. */
function byPlace(row: readonly string[]): Cells {
  const kind = kindOf(row[1] ?? '');
  const cells: Cells = {};
  for (const [i, column] of placesOf(kind).entries()) {
    const text = row[i] ?? '';
    if (column && text !== '') cells[column] = text;
  }
  return cells;
}
