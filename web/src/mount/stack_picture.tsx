import { useId } from 'preact/hooks';
import type { Lathe } from '../api/schema';
import { Figure, useWidth } from '../pictures/figure';
import { words } from '../words';
import { type Shape, type StackDrawing, spread } from './stack_geometry';

/** What of a lathe is drawn. */
export type StackLathe = Pick<Lathe, 'thread_start_nm' | 'tip_nm' | 'arbor_diameter_nm' | 'nut_thread'>;

interface Props {
  drawing: StackDrawing;
  lathe: StackLathe;
  says: string;
}

const SHOULDER_MM = 14;
const END_VIEW_PX = 62;
const NUMBER_GAP_PX = 27;
const NUMBER_R_PX = 12;
const MOST_PX_PER_MM = 2.6;
const TOP_PX = 12;
const UNDER_PX = 54;
const NOT_CUT: readonly Shape['look'][] = ['spring'];

/** The stack on its arbor, upper half in section and to scale, numbered in the order of assembly. */
export function StackPicture({ drawing, lathe, says }: Props) {
  const { stack } = words.mount;
  const [frame, width] = useWidth(560);
  const hatch = useId();
  const thread = (lathe.thread_start_nm ?? drawing.length_mm * 1e6) / 1e6;
  const tip = Math.max((lathe.tip_nm ?? 0) / 1e6, drawing.length_mm + 20);
  const from = Math.min(drawing.from_mm, -SHOULDER_MM);
  const scale = Math.min((width - END_VIEW_PX) / (tip - from), MOST_PX_PER_MM);
  const axis = TOP_PX + drawing.top_mm * scale;
  const x = (mm: number) => (mm - from) * scale;
  const y = (mm: number) => axis - mm * scale;
  const path = (shape: Shape) => shape.points.map(([at, r], i) => `${i ? 'L' : 'M'}${x(at)} ${y(r)}`).join(' ');
  const arbor = (lathe.arbor_diameter_nm ?? 25e6) / 2e6;
  const numbered = drawing.shapes.filter(
    (shape, i) => drawing.shapes.findIndex((other) => other.number === shape.number) === i,
  );
  const places = spread(
    numbered.map((shape) => x(shape.at[0])),
    NUMBER_GAP_PX,
    NUMBER_R_PX + 2,
    x(tip) + END_VIEW_PX - NUMBER_R_PX - 2,
  );
  return (
    <Figure name={stack.picture} kind="stack" says={says}>
      <div ref={frame}>
        <svg width={width} height={axis + UNDER_PX} aria-hidden="true" class="stack">
          <defs>
            {([45, -45] as const).map((angle) => (
              <pattern
                key={angle}
                id={`${hatch}${angle}`}
                width="6"
                height="6"
                patternUnits="userSpaceOnUse"
                patternTransform={`rotate(${angle})`}
              >
                <line class="stack-hatch" x1="0" y1="0" x2="0" y2="6" />
              </pattern>
            ))}
          </defs>
          <rect
            class="stack-iron"
            x={x(-SHOULDER_MM)}
            y={y(2.2 * arbor)}
            width={SHOULDER_MM * scale}
            height={2.2 * arbor * scale}
          />
          <rect class="stack-iron" x={x(0)} y={y(arbor)} width={thread * scale} height={arbor * scale} />
          <path class="stack-iron" d={threaded(x(thread), x(tip), y(arbor), axis, scale)} />
          {drawing.shapes.map((shape) => (
            <g key={shape.key} class={`stack-${shape.look} ${shape.guessed ? 'stack-guessed' : ''}`}>
              <path class="stack-piece" d={NOT_CUT.includes(shape.look) ? path(shape) : `${path(shape)} Z`} />
              {NOT_CUT.includes(shape.look) ? null : (
                <path d={`${path(shape)} Z`} fill={`url(#${hatch}${shape.number % 2 ? 45 : -45})`} />
              )}
              {shape.damping ? <path class="stack-damping" d={`${path(shape)} Z`} /> : null}
            </g>
          ))}
          <line class="stack-axis" x1={0} x2={x(tip) + 8} y1={axis} y2={axis} />
          {numbered.map((shape, i) => {
            const at = places[i] ?? 0;
            return (
              <g key={shape.key} class="stack-number">
                <path d={`M${x(shape.at[0])} ${y(shape.at[1])} L${at} ${axis + 28}`} />
                <circle class="stack-dot" cx={x(shape.at[0])} cy={y(shape.at[1])} r={2.5} />
                <circle cx={at} cy={axis + 38} r={NUMBER_R_PX} />
                <text x={at} y={axis + 38}>
                  {shape.number}
                </text>
              </g>
            );
          })}
          <Turning x={x(tip) + END_VIEW_PX / 2 + 2} y={axis - 24} hand={lathe.nut_thread ?? 'left'} />
        </svg>
      </div>
    </Figure>
  );
}

function threaded(from: number, to: number, top: number, axis: number, scale: number): string {
  const tooth = Math.max(4, 2.5 * scale);
  const turns = Math.max(2, Math.round((to - from) / tooth));
  const step = (to - from) / turns;
  const teeth = Array.from({ length: turns }, () => `l${step / 2} 3 l${step / 2} -3`).join(' ');
  return `M${from} ${axis} V${top} ${teeth} V${axis} Z`;
}

/** The nut seen from the tip, with the way in which it is tightened. */
function Turning({ x, y, hand }: { x: number; y: number; hand: 'left' | 'right' }) {
  const way = hand === 'left' ? -1 : 1;
  const r = 20;
  const spot = (deg: number, radius = r): [number, number] => {
    const t = (deg * Math.PI) / 180;
    return [x + radius * Math.sin(t), y - radius * Math.cos(t)];
  };
  const [begin, end] = [spot(-140 * way), spot(120 * way)];
  const flats = Array.from({ length: 6 }, (_, i) => spot(60 * i + 30, 11).join(' ')).join(' L');
  return (
    <g class="stack-turning">
      <path class="stack-iron" d={`M${flats} Z`} />
      <path d={`M${begin.join(' ')} A${r} ${r} 0 1 ${way === 1 ? 1 : 0} ${end.join(' ')}`} />
      <path class="stack-arrow" transform={`translate(${end.join(' ')}) rotate(${210 * way})`} d="M0 -7 L5 5 L-5 5 Z" />
      <text x={x} y={y - r - 9}>
        {words.mount.stack.tighten}
      </text>
    </g>
  );
}
