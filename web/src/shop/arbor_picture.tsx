import type { Unit } from '../api/schema';
import { Figure } from '../pictures/figure';
import { digitsOfMm } from '../show/length';
import { words } from '../words';
import { type ArborLengths, contradiction, stackWindow } from './arbor_rules';

interface Props extends ArborLengths {
  diameter_mm: number | null;
  unit: Unit;
}

const WIDTH = 420;
const LEFT = 34;
const RIGHT = 14;
const AXIS = 78;
const FINE = 10_000;
/** Shown until the figures are typed: proportions only, and no figure is written beside them. */
const OUTLINE = { diameter_mm: 25, thread_start_mm: 180, tip_mm: 250, nut_engagement_mm: 20 };

/** An arbor in section, to scale along and across, with the three distances that decide what can be clamped on it. */
export function ArborPicture(props: Props) {
  const { arbor } = words.shop.lathes;
  const drawn = {
    diameter_mm: props.diameter_mm ?? OUTLINE.diameter_mm,
    thread_start_mm: props.thread_start_mm ?? OUTLINE.thread_start_mm,
    tip_mm: props.tip_mm ?? Math.max(OUTLINE.tip_mm, (props.thread_start_mm ?? 0) * 1.4),
    nut_engagement_mm: props.nut_engagement_mm ?? OUTLINE.nut_engagement_mm,
  };
  if (contradiction(drawn)) return null;
  const scale = (WIDTH - LEFT - RIGHT) / drawn.tip_mm;
  const x = (mm: number) => LEFT + mm * scale;
  const half = Math.min(34, Math.max(5, (drawn.diameter_mm * scale) / 2));
  const room = stackWindow(drawn);
  const how = { unit: props.unit, resolution_nm: FINE };
  const said = (mm: number | null) => (mm === null ? '?' : digitsOfMm(mm, how));
  const ends = room && props.thread_start_mm !== null && props.tip_mm !== null ? room : null;
  return (
    <Figure
      name={arbor.picture}
      kind="arbor"
      says={ends ? arbor.window(digitsOfMm(ends.least_mm, how), digitsOfMm(ends.most_mm, how), props.unit) : ''}
    >
      <svg viewBox={`0 0 ${WIDTH} 206`} aria-hidden="true" class="arbor">
        <rect class="iron" x={2} y={AXIS - 54} width={LEFT - 2} height={108} />
        <rect class="iron" x={LEFT} y={AXIS - half} width={x(drawn.thread_start_mm) - LEFT} height={2 * half} />
        <Thread from={x(drawn.thread_start_mm)} to={x(drawn.tip_mm)} half={half} />
        <line class="axis" x1={0} x2={WIDTH} y1={AXIS} y2={AXIS} />
        {room ? (
          <rect
            class="stack-end"
            x={x(room.least_mm)}
            y={AXIS - 62}
            width={Math.max(2, x(room.most_mm) - x(room.least_mm))}
            height={8}
          />
        ) : null}
        <text x={x(room?.least_mm ?? drawn.thread_start_mm)} y={AXIS - 66} text-anchor="middle">
          {arbor.ends_here}
        </text>
        <Distance y={132} from={LEFT} to={x(drawn.thread_start_mm)}>
          {`${arbor.short.thread_start} ${said(props.thread_start_mm)}`}
        </Distance>
        <Distance y={162} from={LEFT} to={x(drawn.tip_mm)}>
          {`${arbor.short.tip} ${said(props.tip_mm)}`}
        </Distance>
        <Distance y={192} from={x(drawn.tip_mm - drawn.nut_engagement_mm)} to={x(drawn.tip_mm)} before>
          {`${arbor.short.nut_engagement} ${said(props.nut_engagement_mm)}`}
        </Distance>
        <text x={2} y={AXIS - 58}>
          {arbor.shoulder}
        </text>
        <text x={LEFT + 10} y={AXIS - half - 6}>{`⌀ ${said(props.diameter_mm)}`}</text>
      </svg>
    </Figure>
  );
}

/** The thread's flanks, each turn as one tooth on both edges of the bar. */
function Thread({ from, to, half }: { from: number; to: number; half: number }) {
  const turns = Math.max(4, Math.round((to - from) / 5));
  const step = (to - from) / turns;
  const edge = (side: 1 | -1) =>
    Array.from({ length: turns }, (_, i) => {
      const at = from + i * step;
      return `L${at + step / 2} ${AXIS + side * (half - 3)} L${at + step} ${AXIS + side * half}`;
    }).join(' ');
  return (
    <g>
      <path
        class="iron"
        d={`M${from} ${AXIS - half} ${edge(-1)} L${to} ${AXIS + half} ${`M${from} ${AXIS + half} ${edge(1)}`} L${to} ${AXIS} L${from} ${AXIS} Z`}
      />
      <rect class="iron core" x={from} y={AXIS - half + 3} width={to - from} height={2 * half - 6} />
    </g>
  );
}

interface DistanceProps {
  y: number;
  from: number;
  to: number;
  /** The words stand before the line, where it is too short to carry them. */
  before?: boolean;
  children: string;
}

function Distance({ y, from, to, before = false, children }: DistanceProps) {
  return (
    <g class="distance">
      <path d={`M${from} ${y - 8} V${y + 4} M${to} ${y - 8} V${y + 4} M${from} ${y} H${to}`} />
      <path d={`M${from} ${y} l7 -3 v6 Z M${to} ${y} l-7 -3 v6 Z`} class="arrow" />
      {before ? (
        <text x={from - 6} y={y + 4} text-anchor="end">
          {children}
        </text>
      ) : (
        <text x={(from + to) / 2} y={y - 5} text-anchor="middle">
          {children}
        </text>
      )}
    </g>
  );
}
