import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { ask } from '../route/router';
import { ShopFrame } from '../shop/frame';
import { shop } from '../state/shop';
import { words } from '../words';
import { OWN_PLACES } from './columns';
import { GridRow } from './grid_row';
import { useGridRows } from './grid_state';
import { blockOf } from './paste';
import { stateOf } from './rows';
import { nextSpot, type Spot, spotBefore, spotInRow } from './walk';

const HEADS_BEFORE = ['name', 'kind', 'hook', 'unit', 'bore', 'length'] as const;
const HEADS_AFTER = ['runout_um', 'note'] as const;

/** Many pieces, one row each, by keys alone or pasted from a spreadsheet. */
export function Grid() {
  const { grid, columns } = words.pegboard;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const state = useGridRows(unit);
  const frame = useRef<HTMLTableElement>(null);
  const [wanted, setWanted] = useState<Spot | null>({ row: 0, place: 0 });
  const { rows } = state;
  const unsaved = rows.filter((row) => !['saved', 'empty'].includes(stateOf(row))).length;
  const saved = rows.filter((row) => stateOf(row) === 'saved').length;
  /** At once where the cell is there: keys of a gauge's cable follow each other faster than a screen is drawn. */
  const focus = ({ row, place }: Spot): boolean => {
    const field = frame.current?.querySelector<HTMLInputElement>(`[data-spot="${row}-${place}"]`);
    field?.focus();
    field?.select();
    return field !== null && field !== undefined;
  };
  useLayoutEffect(() => {
    if (wanted && focus(wanted)) setWanted(null);
  }, [wanted, rows]);
  const goTo = (spot: Spot | null) => {
    if (!spot || focus(spot)) return;
    if (spot.row >= rows.length) state.add();
    setWanted(spot);
  };
  const onKey = (event: KeyboardEvent, spot: Spot) => {
    const field = event.currentTarget as HTMLInputElement;
    const next = step(event, field, spot, rows);
    if (next === 'none') return;
    event.preventDefault();
    goTo(next);
  };
  const onPaste = (event: ClipboardEvent, spot: Spot) => {
    const text = event.clipboardData?.getData('text/plain') ?? '';
    const block = blockOf(text);
    if (block.length < 2 && (block[0]?.length ?? 0) < 2) return;
    event.preventDefault();
    const added = state.paste(spot.row, text);
    setWanted({ row: spot.row + added - 1, place: 0 });
  };
  return (
    <ShopFrame
      room="pegboard"
      next={
        <button
          type="button"
          class="main"
          onClick={() => {
            void state.saveAll().then(() => {
              state.clearSaved();
              ask({ view: '' });
            });
          }}
        >
          {grid.done}
        </button>
      }
      aside={
        <button type="button" onClick={() => ask({ view: 'import' })}>
          {words.pegboard.bring.open}
        </button>
      }
    >
      <div class="grid-entry">
        <p class="soft">{grid.lead}</p>
        <p role="status">{grid.counts(saved, unsaved)}</p>
        {state.lost ? (
          <p class="trouble" role="alert">
            {state.lost.message} {grid.kept}
          </p>
        ) : null}
        <div class="grid-frame">
          <table class="piece-grid" ref={frame}>
            <thead>
              <tr>
                {HEADS_BEFORE.map((column) => (
                  <th key={column} scope="col">
                    {columns[column]}
                  </th>
                ))}
                <th scope="colgroup" colSpan={OWN_PLACES}>
                  {grid.own}
                </th>
                {HEADS_AFTER.map((column) => (
                  <th key={column} scope="col">
                    {columns[column]}
                  </th>
                ))}
                <th scope="col">{grid.state}</th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row, at) => (
                <GridRow
                  key={row.id}
                  row={row}
                  at={at}
                  busy={state.busy.has(row.id)}
                  onType={(column, text) => state.type(row.id, column, text)}
                  onKey={onKey}
                  onPaste={onPaste}
                  onLeft={() => void state.save(row.id)}
                  onDrop={() => state.drop(row.id)}
                />
              ))}
            </tbody>
          </table>
        </div>
        <div class="row">
          <button
            type="button"
            onClick={() => {
              state.add();
              setWanted({ row: rows.length, place: 0 });
            }}
          >
            {grid.add}
          </button>
          {saved > 0 ? (
            <button type="button" class="plain" onClick={state.clearSaved}>
              {grid.clear(saved)}
            </button>
          ) : null}
        </div>
      </div>
    </ShopFrame>
  );
}

/** Where a key leads: Enter on, arrows in the four directions, sideways only from the end of what is typed. */
function step(event: KeyboardEvent, field: HTMLInputElement, spot: Spot, rows: ReturnType<typeof useGridRows>['rows']) {
  const { selectionStart: from, selectionEnd: to, value } = field;
  const whole = from === 0 && to === value.length;
  switch (event.key) {
    case 'Enter':
      return event.shiftKey ? spotBefore(rows, spot) : nextSpot(rows, spot);
    case 'ArrowDown':
      return spotInRow(rows, spot.row + 1, spot.place);
    case 'ArrowUp':
      return spotInRow(rows, spot.row - 1, spot.place);
    case 'ArrowRight': {
      if (!whole && to !== value.length) return 'none';
      const next = nextSpot(rows, spot);
      return next.row === spot.row ? next : null;
    }
    case 'ArrowLeft':
      return whole || to === 0 ? spotBefore(rows, spot) : 'none';
    default:
      return 'none';
  }
}
