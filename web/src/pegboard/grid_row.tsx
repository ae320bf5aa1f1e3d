import { words } from '../words';
import { type Column, isLength, placesOf } from './columns';
import { cell, kindOfRow, type Row, type RowState, stateOf, wants } from './rows';
import type { Spot } from './walk';

interface Props {
  row: Row;
  at: number;
  busy: boolean;
  onType: (column: Column, text: string) => void;
  onKey: (event: KeyboardEvent, spot: Spot) => void;
  onPaste: (event: ClipboardEvent, spot: Spot) => void;
  /** The focus left the row. */
  onLeft: () => void;
  onDrop: () => void;
}

/** What takes a line of its own on a phone. */
const WIDE: readonly Column[] = ['name', 'is', 'note'];

/** One piece in the making. What its kind is not asked for is no field, so that Tab and Enter pass it over. */
export function GridRow({ row, at, busy, onType, onKey, onPaste, onLeft, onDrop }: Props) {
  const { pegboard } = words;
  const state = stateOf(row);
  const { missing, wrong } = wants(row);
  const kind = kindOfRow(row);
  const marked = (column: Column) => wrong.includes(column) || row.refused?.column === column;
  const complete = (column: Column, text: string) => {
    if (column === 'kind' && kind && text.trim() !== '' && text !== kind) onType('kind', kind);
  };
  const left = (event: FocusEvent) => {
    const to = event.relatedTarget;
    const inside = to instanceof Node && (event.currentTarget as HTMLElement).contains(to);
    if (!inside) onLeft();
  };
  return (
    <tr class={`grid-row grid-${state}`} onFocusOut={left}>
      {placesOf(kind).map((column, place) =>
        column === null ? (
          <td key={place} class="grid-nothing" />
        ) : (
          <td
            key={column}
            data-head={pegboard.columns[column]}
            class={`${marked(column) ? 'grid-wrong' : ''} ${WIDE.includes(column) ? 'grid-wide' : ''}`}
          >
            <input
              data-spot={`${at}-${place}`}
              class={`grid-cell grid-${column} ${isLength(column) ? 'figures' : ''}`}
              aria-label={pegboard.grid.cell(at + 1, pegboard.columns[column])}
              aria-invalid={marked(column) ? true : undefined}
              placeholder={place >= 5 && place <= 9 ? pegboard.columns[column].toLowerCase() : ''}
              value={cell(row, column)}
              autoComplete="off"
              spellcheck={false}
              inputMode={isLength(column) || column === 'runout_um' ? 'decimal' : 'text'}
              maxLength={200}
              onInput={(event) => onType(column, event.currentTarget.value)}
              onBlur={(event) => complete(column, event.currentTarget.value)}
              onKeyDown={(event) => onKey(event, { row: at, place })}
              onPaste={(event) => onPaste(event, { row: at, place })}
            />
          </td>
        ),
      )}
      <td class="grid-state">
        <div class="grid-told">
          <StateOf {...{ row, state, missing, wrong, busy }} />
          {state === 'empty' ? null : (
            <button type="button" class="plain" tabIndex={-1} aria-label={pegboard.grid.drop(at + 1)} onClick={onDrop}>
              ×
            </button>
          )}
        </div>
      </td>
    </tr>
  );
}

interface StateProps {
  row: Row;
  state: RowState;
  missing: readonly Column[];
  wrong: readonly Column[];
  busy: boolean;
}

function StateOf({ row, state, missing, wrong, busy }: StateProps) {
  const { pegboard } = words;
  const named = (columns: readonly Column[]) => columns.map((one) => pegboard.columns[one].toLowerCase()).join(', ');
  if (busy) return <span class="soft">{pegboard.grid.saving}</span>;
  if (state === 'saved') return <span>✓ {pegboard.grid.saved}</span>;
  if (state === 'refused') {
    return (
      <span class="grid-trouble" role="alert">
        {row.refused?.column ? `${pegboard.columns[row.refused.column]}: ` : ''}
        {row.refused?.message}
      </span>
    );
  }
  if (wrong.length > 0) return <span class="grid-trouble">{pegboard.grid.unread(named(wrong))}</span>;
  if (state === 'incomplete') return <span class="soft">{pegboard.grid.missing(named(missing))}</span>;
  return <span class="soft">{state === 'complete' ? pegboard.grid.complete : ''}</span>;
}
