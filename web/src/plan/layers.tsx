import { useRef } from 'preact/hooks';
import type { PlannedPass } from '../api/schema';
import type { Face } from '../guide/faces';
import { Figure, useWidth } from '../pictures/figure';
import type { Dials } from '../show/dials';
import { lengthOfMm } from '../show/length';
import { shop } from '../state/shop';
import { words } from '../words';
import { steppedBy } from './slider';
import { type Layer, layersOf } from './what_if';

interface Props {
  faces: readonly Face[];
  passes: readonly PlannedPass[];
  dials: Dials;
  final_mm: number | null;
  machine_to_mm: number | null;
  discard_mm: number | null;
  onMarks: (pass: number, face: 'outboard' | 'inboard', marks: number) => void;
}

const HEIGHT = 400;
const EDGE = 30;
const CORE = 76;
const LEFT = 92;
const PEEL = 56;
const MOST_MARKS = 60;

/** Micrometres to draw to either side of the middle, and pixels for each. */
export function scaleOf(layers: readonly Layer[], slack_um: number | null): number {
  const deepest = Math.max(50, ...layers.map((one) => one.to_um));
  const beyond = slack_um === null ? 0 : Math.min(Math.max(slack_um / 2, 0), deepest);
  return (HEIGHT / 2 - EDGE - CORE / 2) / (deepest + beyond + 0.08 * deepest);
}

/**
 * The ring from its edge, cut across: what each pass takes off each face, to one scale, the middle left out. The limits
 * are drawn half on each side. A layer is dragged deeper or stepped with the arrow keys at its handle.
 */
export function Layers({ faces, passes, dials, final_mm, machine_to_mm, discard_mm, onMarks }: Props) {
  const { plan, guide } = words;
  const [frame, width] = useWidth(640);
  const held = useRef<{ y: number; marks: number; scale: number } | null>(null);
  const layers = layersOf(passes, dials, faces);
  const bored = faces.length === 1;
  /** Millimetres of size that may still go: a rotor gets thinner, a drum wider. */
  const room_mm = (from: number, to: number) => (bored ? to - from : from - to);
  const slack_um = final_mm !== null && machine_to_mm !== null ? room_mm(final_mm, machine_to_mm) * 1000 : null;
  const scale = held.current?.scale ?? scaleOf(layers, slack_um);
  const how = { unit: shop.value?.settings.default_unit ?? 'mm', resolution_nm: 1000 };
  const right = width - 12;
  const peel = Math.min(PEEL, (right - LEFT - 90) / Math.max(1, passes.length));
  const y = (face: Layer['face'], um: number) => (face === 'outboard' ? EDGE + um * scale : HEIGHT - EDGE - um * scale);
  const end = (pass: number) => right - (passes.length - 1 - pass) * peel;
  const deepest = { outboard: 0, inboard: 0 };
  for (const one of layers) deepest[one.face] = Math.max(deepest[one.face], one.to_um);
  const limits = [
    { key: 'machine_to', word: plan.machine_to, mm: machine_to_mm },
    { key: 'discard', word: plan.discard, mm: discard_mm },
  ].flatMap((one) =>
    one.mm !== null && final_mm !== null ? [{ ...one, under_um: (room_mm(final_mm, one.mm) * 1000) / 2 }] : [],
  );
  const shown = limits.filter(
    (one) => y('outboard', deepest.outboard + one.under_um) < HEIGHT / 2 - CORE / 2 + 8 && one.under_um > -1e6,
  );
  const beyond = limits.filter((one) => !shown.includes(one));
  const says = layers
    .filter((one) => one.to_um > one.from_um)
    .map((one) => plan.layer(one.pass + 1, guide[one.face], lengthOfMm((one.to_um - one.from_um) / 1000, how)))
    .join(' ');
  const drag = (event: PointerEvent, layer: Layer) => {
    const start = held.current;
    if (!start) return;
    const dial = dials[`${layer.face}_um`];
    const by = ((layer.face === 'outboard' ? 1 : -1) * (event.clientY - start.y)) / (start.scale * dial);
    onMarks(layer.pass, layer.face, Math.min(Math.max(Math.round(start.marks + by), 0), MOST_MARKS));
  };
  return (
    <Figure name={plan.picture} kind="layers" says={says}>
      <div class="layers" ref={frame} style={{ height: `${HEIGHT}px` }}>
        <svg width={width} height={HEIGHT} aria-hidden="true">
          <path
            class="layers-core"
            d={corePath(
              y('outboard', deepest.outboard),
              bored ? HEIGHT - EDGE : y('inboard', deepest.inboard),
              LEFT,
              right,
            )}
          />
          {layers.map((one) => (
            <rect
              key={`${one.face}${one.pass}`}
              class={`layers-pass layers-${one.pass % 2 ? 'even' : 'odd'}`}
              x={LEFT}
              width={Math.max(0, end(one.pass) - LEFT)}
              y={Math.min(y(one.face, one.from_um), y(one.face, one.to_um))}
              height={Math.abs(y(one.face, one.to_um) - y(one.face, one.from_um))}
            />
          ))}
          {shown.map((one) =>
            faces.map((face) => (
              <g key={`${one.key}${face}`} class={`layers-limit layers-${one.key}`}>
                <path d={`M${LEFT} ${y(face, deepest[face] + one.under_um)}H${right}`} />
                <text x={LEFT + 6} y={y(face, deepest[face] + one.under_um) + (face === 'outboard' ? 14 : -5)}>
                  {one.word}
                </text>
              </g>
            )),
          )}
          <text class="layers-face" x="0" y={EDGE + 4}>
            {guide.outboard}
          </text>
          {bored ? null : (
            <text class="layers-face" x="0" y={HEIGHT - EDGE + 4}>
              {guide.inboard}
            </text>
          )}
          <text class="layers-word" x={(LEFT + right) / 2} y={HEIGHT / 2 + 5}>
            {plan.core}
          </text>
          <text class="layers-word layers-ends" x={LEFT} y={HEIGHT - 4}>
            {plan.inner_edge}
          </text>
          <text class="layers-word layers-right" x={right} y={HEIGHT - 4}>
            {plan.outer_edge}
          </text>
        </svg>
        {layers.map((one) => {
          const marks = passes[one.pass]?.[`${one.face}_marks`] ?? 0;
          const depth = lengthOfMm((one.to_um - one.from_um) / 1000, how);
          return (
            <div
              key={`${one.face}${one.pass}`}
              class="layers-handle figures"
              style={{ left: `${end(one.pass)}px`, top: `${y(one.face, one.to_um)}px` }}
              role="slider"
              tabIndex={0}
              aria-orientation="vertical"
              aria-label={plan.layer_label(one.pass + 1, guide[one.face])}
              aria-valuemin={0}
              aria-valuemax={MOST_MARKS}
              aria-valuenow={marks}
              aria-valuetext={`${marks} ${words.cut.marks(marks)}, ${depth}`}
              onKeyDown={(event) => {
                const deeper = one.face === 'outboard' ? 'ArrowDown' : 'ArrowUp';
                const upright = event.key === 'ArrowDown' || event.key === 'ArrowUp';
                const key = upright ? (event.key === deeper ? 'ArrowRight' : 'ArrowLeft') : event.key;
                const next = steppedBy(key, marks, MOST_MARKS);
                if (next === null) return;
                event.preventDefault();
                onMarks(one.pass, one.face, next);
              }}
              onPointerDown={(event) => {
                if (event.button !== 0) return;
                event.currentTarget.setPointerCapture(event.pointerId);
                held.current = { y: event.clientY, marks, scale };
              }}
              onPointerMove={(event) => drag(event, one)}
              onPointerUp={() => {
                held.current = null;
                onMarks(one.pass, one.face, marks);
              }}
              onPointerCancel={() => {
                held.current = null;
              }}
            >
              {one.pass + 1}
            </div>
          );
        })}
      </div>
      <p class="small soft">
        {plan.to_scale}{' '}
        {beyond.map((one) => plan.limit_beyond(one.word, lengthOfMm((2 * one.under_um) / 1000, how))).join(' ')}
      </p>
    </Figure>
  );
}

/** The metal that stays, torn across in the middle, where it is not drawn to scale. */
function corePath(top: number, bottom: number, left: number, right: number): string {
  const tear = (y: number) => {
    const steps = 12;
    const points = Array.from({ length: steps + 1 }, (_, i) => {
      const x = left + ((right - left) * i) / steps;
      return `${x} ${y + (i % 2 ? 5 : -5)}`;
    });
    return points;
  };
  const above = tear(HEIGHT / 2 - 14);
  const below = tear(HEIGHT / 2 + 14);
  return `M${left} ${top}H${right}L${[...above].reverse().join('L')}Z M${left} ${bottom}H${right}L${[...below].reverse().join('L')}Z`;
}
