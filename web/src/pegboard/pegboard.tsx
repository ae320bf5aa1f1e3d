import { useState } from 'preact/hooks';
import type { HungPiece, PieceKind, PieceState } from '../api/schema';
import { ask, place } from '../route/router';
import { Choice } from '../shell/choice';
import { Drawer } from '../shell/drawer';
import { ShopFrame } from '../shop/frame';
import { words } from '../words';
import { usePegboard } from './board_state';
import { KINDS } from './columns';
import { Glyph } from './glyph';
import { Grid } from './grid';
import { ImportPieces } from './import_pieces';
import './pegboard.css';
import { PieceSheet } from './piece_sheet';
import { byHook, chosen, keyDimensions, runoutOf, type Wanted, whereIs } from './where';

/** What hangs on the board, what is out and with whom; and the two quick ways to enter a whole set. */
export function Pegboard() {
  const { view } = place.value.query;
  if (view === 'grid') return <Grid />;
  if (view === 'import') return <ImportPieces />;
  return <Hooks />;
}

const STATES: readonly PieceState[] = ['on_board', 'in_use', 'missing'];

function Hooks() {
  const words_ = words.pegboard;
  const board = usePegboard();
  const [wanted, setWanted] = useState<Wanted>({ kind: 'all', state: 'all' });
  const open = place.value.query.piece ?? '';
  const inUse = (board ?? []).filter((hung) => hung.piece.active);
  const retired = (board ?? []).filter((hung) => !hung.piece.active);
  const shown = chosen(inUse, wanted).sort(byHook);
  const opened = board?.find((hung) => hung.piece.id === open) ?? null;
  const count = (part: Partial<Wanted>) => String(chosen(inUse, { ...wanted, ...part }).length);
  return (
    <ShopFrame
      room="pegboard"
      next={
        <button type="button" class="main" onClick={() => ask({ view: 'grid' })}>
          {words_.enter_many}
        </button>
      }
    >
      <div class="pegboard">
        {board && board.length === 0 ? <p class="soft">{words_.none}</p> : null}
        {inUse.length > 0 ? (
          <div class="pegboard-filters">
            <Choice
              label={words_.by_kind}
              value={wanted.kind}
              options={(['all', ...KINDS] as const).map((value: PieceKind | 'all') => ({
                value,
                label: value === 'all' ? words_.all : words_.kinds[value],
                note: count({ kind: value }),
              }))}
              onChange={(kind) => setWanted({ ...wanted, kind })}
            />
            <Choice
              label={words_.by_state}
              value={wanted.state}
              options={(['all', ...STATES] as const).map((value: PieceState | 'all') => ({
                value,
                label: value === 'all' ? words_.anywhere : words_.states[value],
                note: count({ state: value }),
              }))}
              onChange={(state) => setWanted({ ...wanted, state })}
            />
          </div>
        ) : null}
        <HookList pieces={shown} />
        {inUse.length > 0 && shown.length === 0 ? <p class="soft">{words_.none_such}</p> : null}
        <div class="row">
          <button type="button" onClick={() => ask({ view: 'import' })}>
            {words_.bring.open}
          </button>
          <a class="button" href="/api/v1/pieces.csv" download="pieces.csv">
            {words_.export}
          </a>
        </div>
        {retired.length > 0 ? (
          <details class="opens">
            <summary>{words_.retired(retired.length)}</summary>
            <HookList pieces={retired.sort(byHook)} />
          </details>
        ) : null}
      </div>
      {opened ? (
        <Drawer title={opened.piece.name} onClose={() => ask({ piece: '' })}>
          <PieceSheet key={opened.piece.id} hung={opened} onDone={() => ask({ piece: '' })} />
        </Drawer>
      ) : null}
    </ShopFrame>
  );
}

function HookList({ pieces }: { pieces: readonly HungPiece[] }) {
  return (
    <ul class="hooks">
      {pieces.map((hung) => (
        <li key={hung.piece.id}>
          <HookTile hung={hung} />
        </li>
      ))}
    </ul>
  );
}

/** One hook: its word large, what hangs there, and where that is if it does not. */
function HookTile({ hung }: { hung: HungPiece }) {
  const { piece, state } = hung;
  return (
    <button type="button" class={`plain hook hook-${state}`} onClick={() => ask({ piece: piece.id })}>
      <span class="hook-place figures">{piece.hook || words.pegboard.no_hook}</span>
      <Glyph kind={piece.kind} />
      <span class="hook-name">{piece.name}</span>
      <span class="small soft">{words.pegboard.kind[piece.kind]}</span>
      <span class="small figures hook-size">{keyDimensions(piece)}</span>
      {runoutOf(piece) ? <span class="small soft figures">{runoutOf(piece)}</span> : null}
      {state === 'on_board' ? null : <span class="hook-where">{whereIs(hung)}</span>}
    </button>
  );
}
