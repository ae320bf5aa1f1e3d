import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { Piece, PieceKind, Unit } from '../api/schema';
import { Field } from '../controls/field';
import { LengthField, nmOf } from '../controls/length_field';
import { useSaving, wrongElsewhere } from '../controls/saving';
import { Choice } from '../shell/choice';
import { words } from '../words';
import { loadPegboard } from './board_state';
import { type Column, columnsOf, isLength, KINDS } from './columns';
import { CellRefused, cell, columnOfField, kindOfRow, pieceOf, type Row, rowOf, unitOfRow, wants } from './rows';

/** A piece by its fields, those of its kind alone. */
export function PieceForm({ piece, onDone }: { piece: Piece; onDone: () => void }) {
  const { pegboard } = words;
  const [row, setRow] = useState<Row>(() => rowOf(piece));
  const [active, setActive] = useState(piece.active);
  const [asked, setAsked] = useState(false);
  const saving = useSaving();
  const unit = unitOfRow(row, piece.unit);
  const kind = kindOfRow(row) ?? piece.kind;
  const { missing, wrong } = wants(row);
  const set = (column: Column) => (text: string) =>
    setRow((now) => ({ ...now, cells: { ...now.cells, [column]: text } }));
  const refused = saving.trouble ? columnOfField(saving.trouble.field) : null;
  const save = () => {
    setAsked(true);
    if (missing.length + wrong.length > 0) return;
    void saving
      .run(async () => {
        const body = { ...(await readPiece(row, unit)), active };
        await call('put', '/pieces/{piece_id}', { path: { piece_id: piece.id }, body });
        await loadPegboard();
      })
      .then((went) => {
        if (went) onDone();
      });
  };
  const wrongIn = (column: Column): string | undefined => {
    if (refused === column) return saving.trouble?.message;
    if (wrong.includes(column)) return pegboard.wrong[column] ?? pegboard.wrong_number;
    return asked && missing.includes(column) ? pegboard.needed : undefined;
  };
  return (
    <form
      class="fields"
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      <Choice
        shown
        label={pegboard.columns.kind}
        value={kind}
        options={KINDS.map((value: PieceKind) => ({ value, label: pegboard.kind[value] }))}
        onChange={set('kind')}
      />
      {columnsOf(kind)
        .filter((column) => column !== 'kind' && column !== 'unit')
        .map((column) => (
          <PieceField key={column} {...{ row, column, unit, set }} error={wrongIn(column)} />
        ))}
      <label class="tick">
        <input type="checkbox" checked={active} onChange={(event) => setActive(event.currentTarget.checked)} />
        <span>
          {words.shop.active} <span class="small soft">{words.shop.retire_note}</span>
        </span>
      </label>
      {saving.trouble && refused === null ? (
        <p class="trouble" role="alert">
          {wrongElsewhere(saving.trouble, [])}
        </p>
      ) : null}
      <button type="submit" class="main" disabled={saving.busy}>
        {words.shop.save}
      </button>
    </form>
  );
}

/** The shop's refusal of one length comes out as it said it; the field is shown by the caller. */
async function readPiece(row: Row, unit: Unit): Promise<Piece> {
  try {
    return await pieceOf(row, unit, nmOf);
  } catch (cause) {
    throw cause instanceof CellRefused ? cause.cause : cause;
  }
}

interface FieldProps {
  row: Row;
  column: Column;
  unit: Unit;
  set: (column: Column) => (text: string) => void;
  error: string | undefined;
}

function PieceField({ row, column, unit, set, error }: FieldProps) {
  const { pegboard } = words;
  const shared = { label: pegboard.columns[column], value: cell(row, column), error, onInput: set(column) };
  if (isLength(column)) {
    return <LengthField {...shared} note={pegboard.notes[column]} unit={unit} onUnit={(next) => set('unit')(next)} />;
  }
  return (
    <Field
      {...shared}
      note={pegboard.notes[column]}
      inputMode={column === 'runout_um' ? 'decimal' : 'text'}
      after={column === 'runout_um' ? <span class="unit">µm</span> : null}
    />
  );
}
