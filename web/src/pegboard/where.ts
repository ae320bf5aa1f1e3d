import type { HungPiece, Piece, PieceKind, PieceState } from '../api/schema';
import { digitsOfMm } from '../show/length';
import { moment } from '../show/time';
import { personName } from '../state/shop';
import { words } from '../words';
import { jobNumber } from './board_state';
import { type Column, columnsOf, isLength } from './columns';

/** Hooks as people count them: B2 before B10. */
export const byHook = (a: HungPiece, b: HungPiece): number =>
  order.compare(a.piece.hook || '~', b.piece.hook || '~') || order.compare(a.piece.name, b.piece.name);
const order = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

export interface Wanted {
  kind: PieceKind | 'all';
  state: PieceState | 'all';
}

export const chosen = (board: readonly HungPiece[], { kind, state }: Wanted): HungPiece[] =>
  board.filter((hung) => (kind === 'all' || hung.piece.kind === kind) && (state === 'all' || hung.state === state));

const FINE = { mm: 10_000, in: 25_400 } as const;

/** A dimension in the piece's own unit, without it. */
export const digitsOf = (nm: number, piece: Piece): string =>
  digitsOfMm(nm / 1e6, { unit: piece.unit, resolution_nm: FINE[piece.unit] });

/** The dimensions that tell a piece from its neighbours: "25.40 bore · 55.00 to 75.00 · 40.00 long mm". */
export function keyDimensions(piece: Piece): string {
  const said = columnsOf(piece.kind)
    .filter((column) => isLength(column))
    .map((column) => [column, piece[`${column}_nm` as 'bore_nm']] as const)
    .filter((pair): pair is readonly [Column, number] => typeof pair[1] === 'number')
    .map(([column, nm]) => `${words.pegboard.columns[column].toLowerCase()} ${digitsOf(nm, piece)}`);
  const is = [piece.damping ? words.pegboard.damping : '', piece.weighted ? words.pegboard.weighted : ''];
  return [`${said.join(' · ')} ${piece.unit}`, ...is.filter(Boolean)].join(' · ');
}

export const runoutOf = (piece: Piece): string =>
  piece.runout_um === null || piece.runout_um === undefined ? '' : words.pegboard.runout(String(piece.runout_um));

/** Where a piece is, and with whom since when. */
export function whereIs({ state, last_booking: last }: HungPiece): string {
  const { where } = words.pegboard;
  if (state === 'on_board' || !last) return where.on_board;
  const who = personName(last.by_person_id);
  const since = moment(last.at, new Date());
  const number = jobNumber(last.job_id);
  if (state === 'missing') return number === null ? where.missing(who, since) : where.missing_from(number, who, since);
  return number === null ? where.in_use(who, since) : where.in_use_by(number, who, since);
}
