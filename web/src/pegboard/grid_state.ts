import { useEffect, useRef, useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Unit } from '../api/schema';
import { nmOf } from '../controls/length_field';
import { type Trouble, troubleOf } from '../controls/saving';
import { dropDraft, keepDraft, readDraft } from '../state/drafts';
import { loadPegboard } from './board_state';
import type { Column } from './columns';
import { blockOf, piecesOfBlock } from './paste';
import {
  CellRefused,
  type Cells,
  columnOfField,
  isEmpty,
  pieceOf,
  type Row,
  rowAfter,
  stateOf,
  unitOfRow,
} from './rows';

const DRAFT = 'pegboard_grid';

/** The rows of the grid, kept on this tablet until each is saved; a reload loses none of them. */
export function useGridRows(unit: Unit) {
  const [rows, setRows] = useState<Row[]>(() => {
    const kept = readDraft<{ rows: Row[] }>(localStorage, DRAFT, { rows: [] }).rows;
    return kept.length > 0 ? kept : [rowAfter(newId(), null, unit)];
  });
  const [busy, setBusy] = useState<ReadonlySet<string>>(new Set());
  const [lost, setLost] = useState<Trouble | null>(null);
  const now = useRef(rows);
  now.current = rows;
  useEffect(() => keepDraft(localStorage, DRAFT, { rows }), [rows]);

  const change = (id: string, make: (row: Row) => Row) => {
    now.current = now.current.map((row) => (row.id === id ? make(row) : row));
    setRows(now.current);
  };
  const type = (id: string, column: Column, text: string) =>
    change(id, ({ refused: _, ...row }) => ({ ...row, cells: { ...row.cells, [column]: text } }));
  const add = () => {
    now.current = [...now.current, rowAfter(newId(), now.current.at(-1) ?? null, unit)];
    setRows(now.current);
  };
  const drop = (id: string) => {
    const left = now.current.filter((row) => row.id !== id);
    now.current = left.length > 0 ? left : [rowAfter(newId(), null, unit)];
    setRows(now.current);
  };
  const save = async (id: string) => {
    const row = now.current.find((one) => one.id === id);
    if (!row || stateOf(row) !== 'complete') return;
    const cells = row.cells;
    setBusy((those) => new Set(those).add(id));
    try {
      const body = await pieceOf(row, unitOfRow(row, unit), nmOf);
      await call('put', '/pieces/{piece_id}', { path: { piece_id: id }, body });
      change(id, (one) => ({ ...one, saved: cells }));
      setLost(null);
    } catch (cause) {
      const trouble = troubleOf(cause instanceof CellRefused ? cause.cause : cause);
      if (trouble.code === 'unreachable') setLost(trouble);
      else {
        const column = cause instanceof CellRefused ? cause.column : columnOfField(trouble.field);
        change(id, (one) => ({ ...one, refused: { column, message: trouble.message } }));
      }
    } finally {
      setBusy((those) => new Set([...those].filter((one) => one !== id)));
    }
  };
  const saveAll = async () => {
    for (const row of now.current) await save(row.id);
    await loadPegboard().catch(() => undefined);
  };
  /** Lays a pasted block over the rows from this one on. With headings, or from the first place, each row is a piece. */
  const paste = (at: number, text: string): number => {
    const { rows: pieces } = piecesOfBlock(blockOf(text));
    const over = [...now.current];
    for (const [i, cells] of pieces.entries()) {
      const there = over[at + i];
      const free = there && isEmpty(there) ? there : null;
      const made: Row = { id: free?.id ?? newId(), cells: { unit, ...cells } as Cells };
      if (free) over[at + i] = made;
      else over.splice(at + i, 0, made);
    }
    now.current = over;
    setRows(over);
    void saveAll();
    return pieces.length;
  };
  const clearSaved = () => {
    const left = now.current.filter((row) => stateOf(row) !== 'saved' && stateOf(row) !== 'empty');
    now.current = left.length > 0 ? left : [rowAfter(newId(), null, unit)];
    setRows(now.current);
    if (left.length === 0) dropDraft(localStorage, DRAFT);
  };
  return { rows, busy, lost, type, add, drop, save, saveAll, paste, clearSaved };
}

export type GridRows = ReturnType<typeof useGridRows>;
