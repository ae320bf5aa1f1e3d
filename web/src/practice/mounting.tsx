import { assemblyOrder, drawStack, pieceShape } from '../mount/stack_geometry';
import { StackPicture } from '../mount/stack_picture';
import { Choice } from '../shell/choice';
import { lengthOfMm } from '../show/length';
import { words } from '../words';
import { drawnBenchPiece, drawnPart, latheDrawn } from './drawn';
import type { BenchMake, BenchPiece } from './model';
import { howOf, inTurn, micrometres, whole } from './numbers';
import { Proof } from './proof';
import { lastMounted } from './readings';
import { RefusedLine } from './refused_line';
import type { AtBench } from './use_run';

/** The stack as it is being put together, before the part is on it. */
export interface Stacking {
  pieces: readonly string[];
  nut_tight: boolean;
  turn_deg: number;
}

interface Props {
  at: AtBench;
  stacking: Stacking;
  onStacking: (part: Partial<Stacking>) => void;
}

export const mountAct = ({ pieces, turn_deg, nut_tight }: Stacking) => ({
  do: 'mount_part' as const,
  pieces: [...pieces],
  turn_deg: inTurn(turn_deg),
  nut_tight,
});

const HALF_DEG = 180;

/** From the pegboard onto the arbor, and the proof of how it runs there. */
export function Mounting({ at, stacking, onStacking }: Props) {
  const { mount: said } = words.practice_bench;
  const { view } = at.run;
  const mounted = view.mounted.length > 0;
  return (
    <section class="bench-two" aria-label={said.title}>
      <div class="bench-thing">
        <h2>{mounted ? said.mounted : said.on}</h2>
        <OnArbor at={at} ids={mounted ? view.mounted : stacking.pieces} />
        <RefusedLine at={at} of={['mount_part', 'unmount', 'band', 'wipe', 'renew_races']} />
        {mounted ? <Mounted at={at} onStacking={onStacking} /> : <Open {...{ at, stacking, onStacking }} />}
      </div>
      <div class="bench-beside">
        {mounted ? <Proof at={at} /> : <Pegboard at={at} stacking={stacking} onStacking={onStacking} />}
      </div>
    </section>
  );
}

/** "Cone 2" of cone_2. */
const named = (piece: BenchPiece) =>
  `${words.practice_bench.mount.kind[piece.kind]} ${piece.id.replace(`${piece.kind}_`, '')}`;

const piecesOf = (pieces: readonly BenchPiece[], ids: readonly string[]): BenchPiece[] =>
  ids.flatMap((id) => pieces.find((one) => one.id === id) ?? []);

function OnArbor({ at, ids }: { at: AtBench; ids: readonly string[] }) {
  const { mount: said } = words.practice_bench;
  const { bench } = at.run;
  const pieces = piecesOf(bench.pieces, ids);
  if (pieces.length === 0) return <p class="soft">{said.nothing_on}</p>;
  const drawing = drawStack(pieces.map(drawnBenchPiece), drawnPart(bench.make));
  const names = pieces.map(named).join(', ');
  return <StackPicture drawing={drawing} lathe={latheDrawn(bench.lathe)} says={said.says(names)} />;
}

/** Wipe, order, nut and turn, as long as the part is off. */
function Open({ at, stacking, onStacking }: Props) {
  const { mount: said } = words.practice_bench;
  const { bench, acts } = at.run;
  const last = acts.at(-1)?.act.do;
  const hubbed = bench.make.seat.kind === 'hubbed';
  const chosen = piecesOf(bench.pieces, stacking.pieces);
  return (
    <>
      {stacking.pieces.length > 0 ? (
        <ol class="bench-order" aria-label={said.order}>
          {assemblyOrder(chosen, hubbed).map((id, i) => {
            const piece = chosen.find((one) => one.id === id);
            return piece ? (
              <li key={id}>
                <span class="figures soft">{i + 1}</span> <span>{named(piece)}</span>
                <button
                  type="button"
                  class="plain"
                  aria-label={said.take(named(piece))}
                  onClick={() => onStacking({ pieces: stacking.pieces.filter((one) => one !== id) })}
                >
                  ×
                </button>
              </li>
            ) : (
              <li key={id}>
                <span class="figures soft">{i + 1}</span> <strong>{said.part}</strong>
              </li>
            );
          })}
        </ol>
      ) : null}
      <div class="row">
        <button type="button" onClick={() => at.act({ do: 'wipe' })}>
          {said.wipe}
        </button>
        {hubbed ? (
          <button type="button" onClick={() => at.act({ do: 'renew_races' })}>
            {said.renew}
          </button>
        ) : null}
        {stacking.pieces.length > 0 ? (
          <button type="button" class="plain" onClick={() => onStacking({ pieces: [] })}>
            {said.clear}
          </button>
        ) : null}
      </div>
      {last === 'wipe' ? <p role="status">{said.wiped}</p> : null}
      {last === 'renew_races' ? <p role="status">{said.renewed}</p> : null}
      <Choice
        shown
        label={said.nut}
        value={stacking.nut_tight ? 'tight' : 'loose'}
        options={[
          { value: 'tight', label: said.nut_tight },
          { value: 'loose', label: said.nut_loose },
        ]}
        onChange={(nut) => onStacking({ nut_tight: nut === 'tight' })}
      />
      <Choice
        shown
        label={said.turn}
        value={String(inTurn(stacking.turn_deg))}
        options={[0, 90, 180, 270].map((deg) => ({ value: String(deg), label: `${deg}°` }))}
        onChange={(deg) => onStacking({ turn_deg: Number(deg) })}
      />
    </>
  );
}

function Mounted({ at, onStacking }: Pick<Props, 'at' | 'onStacking'>) {
  const { mount: said } = words.practice_bench;
  const { view, acts } = at.run;
  const half = () => {
    const next = { pieces: lastMounted(acts), turn_deg: inTurn(view.turn_deg + HALF_DEG), nut_tight: view.nut_tight };
    onStacking(next);
    at.act({ do: 'unmount' });
    at.act(mountAct(next));
  };
  return (
    <>
      <p class="soft">
        {said.turn}: <span class="figures">{whole(view.turn_deg)}°</span>. {said.nut}:{' '}
        {view.nut_tight ? said.nut_tight : said.nut_loose}.
      </p>
      <Choice
        shown
        pressed
        label={said.band}
        value={view.band ? 'on' : 'off'}
        options={(['on', 'off'] as const).map((value) => ({ value, label: said.bands[value] }))}
        onChange={(band) => at.act({ do: 'band', on: band === 'on' })}
      />
      <div class="row">
        <button type="button" onClick={half}>
          {said.half}
        </button>
        <button type="button" onClick={() => at.act({ do: 'unmount' })}>
          {said.unmount}
        </button>
      </div>
    </>
  );
}

function Pegboard({ at, stacking, onStacking }: Props) {
  const { mount: said } = words.practice_bench;
  const { pieces, make } = at.run.bench;
  const hang = pieces.filter((one) => !stacking.pieces.includes(one.id));
  return (
    <section class="bench-pegboard" aria-label={said.pegboard}>
      <h2>{said.pegboard}</h2>
      <Seat seat={make.seat} />
      <ul>
        {hang.map((piece) => (
          <li key={piece.id}>
            <button
              type="button"
              class="bench-piece"
              onClick={() => onStacking({ pieces: [...stacking.pieces, piece.id] })}
            >
              <PieceDrawing piece={piece} />
              <span>
                <span class="heard">{said.put}</span> {named(piece)}{' '}
                <span class="small soft bench-piece-sizes">{sizesOf(piece)}</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What the pieces are chosen by: bore and flat, or the two races of a hub. */
function Seat({ seat }: { seat: BenchMake['seat'] }) {
  const { mount: said } = words.practice_bench;
  const mm = (value: number) => lengthOfMm(value, howOf(0.1));
  if (seat.kind === 'hubless') {
    return (
      <>
        <p class="soft">{said.lead}</p>
        <p class="small soft">{said.seat(mm(seat.bore_mm), mm(seat.flat_outer_mm))}</p>
      </>
    );
  }
  return (
    <>
      <p class="soft">{said.lead_hub}</p>
      <p>{said.hub(mm(seat.hub_length_mm), mm(seat.inner_race_mm), mm(seat.outer_race_mm))}</p>
      <p class="small soft">{said.tapers}</p>
    </>
  );
}

const PX_PER_MM = 0.8;

/** All pieces in one scale, in half section over the axis. */
function PieceDrawing({ piece }: { piece: BenchPiece }) {
  const shape = pieceShape(drawnBenchPiece(piece));
  const long = Math.max(...shape.points.map(([x]) => x), 4);
  const high = Math.max(...shape.points.map(([, r]) => r), 8);
  const d = shape.points.map(([x, r], i) => `${i ? 'L' : 'M'}${x} ${high - r}`).join(' ');
  return (
    <svg
      class={`bench-piece-drawing stack-${shape.look}`}
      viewBox={`-1 -1 ${long + 2} ${high + 2}`}
      width={PX_PER_MM * (long + 2)}
      height={PX_PER_MM * (high + 2)}
      aria-hidden="true"
    >
      <path class="stack-piece" d={shape.look === 'spring' ? d : `${d} Z`} />
      <line class="stack-axis" x1={-1} x2={long + 1} y1={high} y2={high} />
    </svg>
  );
}

/** What a hand would read of the piece with a rule, each kind by what it is chosen by. */
function sizesOf(piece: BenchPiece): string {
  const { mount: said } = words.practice_bench;
  const mm = (value: number) => lengthOfMm(value, howOf(0.1));
  const told = [
    piece.kind === 'cone' || piece.kind === 'taper' ? said.sizes.cone(mm(piece.small_mm), mm(piece.large_mm)) : '',
    piece.kind === 'clamp' ? said.sizes.ring(mm(piece.ring_inner_mm), mm(piece.ring_outer_mm)) : '',
    piece.cup_depth_mm > 0 ? said.sizes.cup(mm(piece.cup_depth_mm)) : '',
    piece.kind === 'spring'
      ? said.sizes.spring(mm(piece.solid_mm), mm(piece.free_mm))
      : said.sizes.length(mm(piece.length_mm)),
    piece.damping ? said.damping : '',
    piece.weighted ? said.weighted : '',
    piece.runout_um > 0 ? said.runout(micrometres(piece.runout_um)) : '',
  ];
  return told.filter(Boolean).join(', ');
}
