import { type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import { drawnDepth } from './drum_geometry';
import { Figure } from './figure';

interface Props {
  depths_mm: readonly number[];
  /** Width of the braking band, where it is known. */
  band_mm: number | null;
  /** Which depth the gauge stands at. */
  active: number | null;
  how: HowShown;
}

const WIDTH = 300;
const HEIGHT = 220;
const WALL = { top: 26, bottom: 194, thick: 16 };
const CLOSED = 40;
const OPEN = 240;

/** The drum cut through its axis, open edge to the right, with the depths that are read and the gauge across one of them. */
export function DrumSection({ depths_mm, band_mm, active, how }: Props) {
  const { drum } = words.pictures;
  const reach = drawnDepth(depths_mm, band_mm);
  const x = (depth: number) => OPEN - (depth / reach) * (OPEN - CLOSED);
  const text = (depth: number) => lengthOfMm(depth, how);
  const at = active === null ? null : (depths_mm[active] ?? null);
  return (
    <Figure
      name={drum.section}
      kind="drum-section"
      says={drum.section_says(at === null ? '–' : text(at), depths_mm.map(text).join(', '))}
    >
      <svg class="drum-section" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
        <path
          class="drum-iron"
          d={`M${CLOSED - 14} ${WALL.top - WALL.thick}H${OPEN}V${WALL.top}H${CLOSED}V92H${CLOSED - 14}Z`}
        />
        <path
          class="drum-iron"
          d={`M${CLOSED - 14} ${WALL.bottom + WALL.thick}H${OPEN}V${WALL.bottom}H${CLOSED}V128H${CLOSED - 14}Z`}
        />
        <path class="drum-axis" d={`M8 110H${WIDTH - 8}`} />
        {depths_mm.map((depth, i) => (
          <g key={depth}>
            <path class="drum-depth" d={`M${x(depth)} ${WALL.top}V${WALL.bottom}`} />
            {i === active ? <Gauge x={x(depth)} /> : null}
          </g>
        ))}
        <text class="drum-word" x={OPEN + 6} y={WALL.top - 2}>
          {drum.open_edge.split(' ').map((word, i) => (
            <tspan key={word} x={OPEN + 6} dy={i ? 15 : 0}>
              {word}
            </tspan>
          ))}
        </text>
        {at === null ? null : (
          <text
            class="drum-value figures"
            x={x(at)}
            y={HEIGHT / 2 - 8}
            dx={x(at) > 150 ? -8 : 8}
            text-anchor={x(at) > 150 ? 'end' : 'start'}
          >
            {text(at)}
          </text>
        )}
      </svg>
    </Figure>
  );
}

function Gauge({ x }: { x: number }) {
  const { top, bottom } = WALL;
  return <path class="drum-gauge" d={`M${x} ${top}V${bottom}M${x} ${top}l-5 9h10Z M${x} ${bottom}l-5 -9h10Z`} />;
}
