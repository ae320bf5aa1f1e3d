import type { Piece, PieceKind, Unit } from '../api/schema';
import { numberOf, textOfNm } from '../shop/numbers';
import { type Column, columnsOf, isLength, kindOf, LENGTHS, mayBeEmpty, spacerIs } from './columns';

/** A piece as it is typed: one text a column. */
export type Cells = Partial<Record<Column, string>>;

export interface Row {
  id: string;
  cells: Cells;
  /** As it was when the shop took it; a row whose cells are the same is saved. */
  saved?: Cells;
  /** Why the shop did not take it: the column it named, if it is one of the row's. */
  refused?: { column: Column | null; message: string };
  note?: string;
}

export type RowState = 'empty' | 'incomplete' | 'complete' | 'saved' | 'refused';

export const cell = (row: Row, column: Column): string => row.cells[column] ?? '';
export const kindOfRow = (row: Row): PieceKind | null => kindOf(cell(row, 'kind'));
export const unitOfRow = (row: Row, otherwise: Unit): Unit => unitOf(cell(row, 'unit')) ?? otherwise;

export function unitOf(text: string): Unit | null {
  const word = text
    .trim()
    .toLowerCase()
    .replace(/[".]/g, (sign) => (sign === '"' ? 'in' : ''));
  if (word === 'mm' || word === 'm' || word.startsWith('milli') || word === 'metric') return 'mm';
  if (word === 'in' || word === 'i' || word.startsWith('inch')) return 'in';
  return null;
}

/** A row below another: of the same kind, unit and bore, as the pieces of one set are. */
export function rowAfter(id: string, before: Row | null, unit: Unit): Row {
  const kept: Cells = before
    ? { kind: cell(before, 'kind'), unit: cell(before, 'unit') || unit, bore: cell(before, 'bore') }
    : { unit };
  return { id, cells: kept };
}

/** Nothing typed beyond what a row is begun with. */
export const isEmpty = (row: Row): boolean =>
  Object.entries(row.cells).every(([column, text]) => ['kind', 'unit', 'bore'].includes(column) || text.trim() === '');

/** The columns that still want something, and those whose text means nothing there. */
export function wants(row: Row): { missing: Column[]; wrong: Column[] } {
  const kind = kindOfRow(row);
  const columns = columnsOf(kind);
  const missing = columns.filter((column) => !mayBeEmpty(column) && cell(row, column).trim() === '');
  const wrong = columns.filter((column) => {
    const text = cell(row, column).trim();
    if (text === '') return false;
    if (column === 'kind') return kind === null;
    if (column === 'unit') return unitOf(text) === null;
    if (column === 'is') return spacerIs(text) === null;
    if (column === 'runout_um') return (numberOf(text) ?? -1) < 0;
    return isLength(column) && !/[0-9]/.test(text);
  });
  return { missing, wrong };
}

const same = (a: Cells, b: Cells) =>
  [...new Set([...Object.keys(a), ...Object.keys(b)])].every(
    (column) => (a[column as Column] ?? '').trim() === (b[column as Column] ?? '').trim(),
  );

export function stateOf(row: Row): RowState {
  if (row.saved && same(row.saved, row.cells)) return 'saved';
  if (isEmpty(row)) return 'empty';
  if (row.refused) return 'refused';
  const { missing, wrong } = wants(row);
  return missing.length + wrong.length > 0 ? 'incomplete' : 'complete';
}

/** A piece of the shop as a row, to be changed. */
export function rowOf(piece: Piece): Row {
  const cells: Cells = {
    name: piece.name,
    kind: piece.kind,
    hook: piece.hook,
    unit: piece.unit,
    is: [piece.damping ? 'damping' : '', piece.weighted ? 'weighted' : ''].filter(Boolean).join(' '),
    runout_um: piece.runout_um === null || piece.runout_um === undefined ? '' : String(piece.runout_um),
    note: piece.note,
  };
  for (const column of LENGTHS) cells[column] = textOfNm(piece[`${column}_nm` as 'bore_nm'], piece.unit);
  return { id: piece.id, cells, saved: cells };
}

/**
 * The piece that a complete row says. Lengths are read by the shop; a dimension that is not of this kind is left out,
 * whatever stands in its cell. A spring inside a cup adds nothing to a stack: its length is that without load.
 */
export async function pieceOf(
  row: Row,
  unit: Unit,
  read: (text: string, unit: Unit, field: string) => Promise<number | null>,
): Promise<Piece> {
  const kind = kindOfRow(row) ?? 'spacer';
  const its = unitOfRow(row, unit);
  const columns = columnsOf(kind);
  const asked = LENGTHS.filter((column) => columns.includes(column) && cell(row, column).trim() !== '');
  const lengths = await Promise.all(
    asked.map(async (column) => {
      try {
        return [column, await read(cell(row, column), its, `${column}_nm`)] as const;
      } catch (cause) {
        throw new CellRefused(column, cause);
      }
    }),
  );
  const nm = Object.fromEntries(lengths) as Partial<Record<Column, number>>;
  const of = (column: Column) => nm[column] ?? null;
  const runout = cell(row, 'runout_um').trim();
  return {
    id: row.id,
    name: cell(row, 'name').trim(),
    kind,
    hook: cell(row, 'hook').trim(),
    unit: its,
    bore_nm: of('bore') ?? 0,
    length_nm: (kind === 'spring' ? of('free') : of('length')) ?? 0,
    small_nm: of('small'),
    large_nm: of('large'),
    ring_inner_nm: of('ring_inner'),
    ring_outer_nm: of('ring_outer'),
    cup_bore_nm: of('cup_bore'),
    cup_depth_nm: of('cup_depth'),
    solid_nm: of('solid'),
    free_nm: of('free'),
    outside_nm: of('outside'),
    ...(columns.includes('is') ? (spacerIs(cell(row, 'is')) ?? {}) : {}),
    runout_um: runout === '' ? null : numberOf(runout),
    note: cell(row, 'note').trim(),
    active: true,
  };
}

/** A cell that the shop could not read as a length. */
export class CellRefused extends Error {
  constructor(
    readonly column: Column,
    override readonly cause: unknown,
  ) {
    super(cause instanceof Error ? cause.message : '');
  }
}

/** The column that a refusal of the shop speaks of: `small_nm` is the cell `small`. */
export function columnOfField(field: string): Column | null {
  const name = field.split('.').at(-1)?.replace(/_nm$/, '') ?? '';
  if (name === 'weighted' || name === 'damping') return 'is';
  const known: readonly string[] = ['name', 'kind', 'hook', 'unit', 'runout_um', 'note', ...LENGTHS];
  return known.includes(name) ? (name as Column) : null;
}
