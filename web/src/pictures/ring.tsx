import { angle, digitsOfMm, type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import { bothEnds } from './drum_geometry';
import { Figure } from './figure';
import { bands, type OnRing, pointAt, sectors, shade, shadeColour, spotAt, type Turning, wedge } from './ring_geometry';

/**
 * A rotor's face seen from outside, or a drum seen into from its open edge, as a ring with the reading points on it. Each
 * point's piece of the ring is coloured by how far it lies from `middle_mm`; full colour at `span_mm`. The first circle
 * is the outermost; of a drum it is the depth nearest to the open edge.
 */
export interface RingPoint extends OnRing {
  value_mm: number | null;
  state: 'empty' | 'saved' | 'waiting' | 'questioned';
}

export interface RingProps {
  name: string;
  points: readonly RingPoint[];
  circles: number;
  turning: Turning;
  /** How the middle is called, and what lies to either side of it. */
  meaning: { low: string; middle: string; high: string; lowest: string };
  middle_mm: number | null;
  span_mm: number;
  how: HowShown;
  active?: { circle: number; point: number } | null;
  lowest?: { circle: number; point: number } | null;
  onPick?: (point: RingPoint) => void;
  /** A drum: each point is a diameter, with an end on either side and the gauge's line across. */
  across?: boolean;
  /** Without its legend and table, where another picture beside it carries them. */
  bare?: boolean;
}

const OUTER = 84;
const INNER = 46;
const NUMBERS = 95;
const STUDS = 5;

const same = (a: OnRing, b: { circle: number; point: number } | null | undefined) =>
  !!b && a.circle === b.circle && a.point === b.point;

export function Ring(props: RingProps) {
  const { name, points, circles, middle_mm, span_mm, how, meaning, bare = false } = props;
  const read = points.filter((point) => point.value_mm !== null);
  const low = points.find((point) => same(point, props.lowest));
  const says = [
    words.pictures.ring.says(read.length, points.length),
    low && low.value_mm !== null ? words.pictures.ring.lowest(lengthOfMm(low.value_mm, how), low.point + 1) : '',
  ].join(' ');
  const table = {
    head: [words.pictures.point, words.pictures.angle, words.pictures.value, words.pictures.deviation],
    rows: points.map((point) => [
      circles > 1 ? `${point.point + 1}, ${words.pictures.circle(point.circle)}` : `${point.point + 1}`,
      angle(point.angle_deg),
      point.value_mm === null ? '' : lengthOfMm(point.value_mm, how),
      point.value_mm === null || middle_mm === null
        ? ''
        : digitsOfMm(point.value_mm - middle_mm, { ...how, sign: true }),
    ]),
  };
  return (
    <Figure name={name} kind="ring" says={says} {...(bare ? {} : { table })}>
      <Face {...props} />
      {!bare && middle_mm !== null && <Legend meaning={meaning} middle_mm={middle_mm} span_mm={span_mm} how={how} />}
    </Figure>
  );
}

function Face(props: RingProps) {
  const { circles, turning, middle_mm, span_mm, active, onPick, across = false } = props;
  const points = across ? bothEnds(props.points) : props.points;
  const pick = (event: MouseEvent) => {
    const drawing = event.currentTarget as SVGSVGElement;
    const box = drawing.getBoundingClientRect();
    const scale = 220 / Math.min(box.width, box.height);
    const spot = {
      x: (event.clientX - box.left - box.width / 2) * scale,
      y: (event.clientY - box.top - box.height / 2) * scale,
    };
    const found = pointAt(spot, points, circles, { inner: INNER, outer: OUTER, turning });
    if (found) onPick?.(found);
  };
  const lit = points.find((point) => same(point, active));
  // Pointing is the short cut: arrows in the reading's own field move between the points as well.
  return (
    <svg class={onPick ? 'ring ring-picks' : 'ring'} viewBox="-110 -110 220 220" aria-hidden="true" onClick={pick}>
      {across ? <Bore /> : <Metal />}
      {points.length > 0 &&
        bands(circles, INNER, OUTER).map((band, circle) => (
          <Band
            key={band.middle}
            band={band}
            points={points.filter((point) => point.circle === circle)}
            turning={turning}
            colour={(point) => shade(point.value_mm, middle_mm ?? 0, span_mm)}
          />
        ))}
      <Direction turning={turning} />
      {points.map((point) => (
        <Mark key={`${point.circle}-${point.angle_deg}`} point={point} {...props} />
      ))}
      {lit && across && <GaugeLine point={lit} {...props} />}
      {lit && <Lit point={lit} {...props} />}
    </svg>
  );
}

/** The gauge across the drum, at its depth. */
function GaugeLine({ point, circles, turning }: RingProps & { point: RingPoint }) {
  const band = bands(circles, INNER, OUTER)[point.circle];
  if (!band) return null;
  const near = spotAt(point.angle_deg, band.middle, turning);
  const far = spotAt(point.angle_deg + 180, band.middle, turning);
  return (
    <g class="ring-gauge">
      <path d={`M${near.x} ${near.y}L${far.x} ${far.y}`} class="ring-halo" />
      <path d={`M${near.x} ${near.y}L${far.x} ${far.y}`} />
      <circle cx={far.x} cy={far.y} r={circles > 1 ? 4 : 6} />
    </g>
  );
}

/** A drum seen into: its wall, the braking surface down to the closed end, the holes for the studs. */
function Bore() {
  return (
    <g>
      <circle r={OUTER + 5} class="ring-metal" />
      <circle r={OUTER} class="ring-plate" />
      <circle r={INNER} class="ring-metal" />
      <circle r={13} class="ring-plate" />
      <Studs />
    </g>
  );
}

function Metal() {
  return (
    <g>
      <circle r={OUTER} class="ring-metal" />
      <circle r={INNER} class="ring-plate" />
      <circle r={INNER - 5} class="ring-hat" />
      <circle r={13} class="ring-plate" />
      <Studs />
    </g>
  );
}

function Studs() {
  return (
    <>
      {Array.from({ length: STUDS }, (_, i) => {
        const { x, y } = spotAt((360 / STUDS) * i + 36, 26, 'clockwise');
        return <circle key={x} cx={x} cy={y} r={3} class="ring-plate" />;
      })}
    </>
  );
}

interface BandProps {
  band: { inner: number; outer: number };
  points: readonly RingPoint[];
  turning: Turning;
  colour: (point: RingPoint) => number | null;
}

function Band({ band, points, turning, colour }: BandProps) {
  const pieces = sectors(points.map((point) => point.angle_deg));
  return (
    <g>
      {points.map((point, i) => {
        const piece = pieces[i];
        const share = colour(point);
        if (!piece || share === null) return null;
        const d = wedge(piece.from_deg, piece.to_deg, band.inner, band.outer, turning);
        return <path key={point.angle_deg} d={d} class="ring-piece" style={{ fill: shadeColour(share) }} />;
      })}
      <circle r={band.inner} class="ring-line" />
    </g>
  );
}

function Mark({ point, circles, turning, lowest, active }: RingProps & { point: RingPoint }) {
  const band = bands(circles, INNER, OUTER)[point.circle];
  if (!band) return null;
  const { x, y } = spotAt(point.angle_deg, band.middle, turning);
  const number = spotAt(point.angle_deg, NUMBERS, turning);
  const lit = same(point, active);
  const down = same(point, lowest);
  const tip = spotAt(point.angle_deg, INNER - 1, turning);
  const turn = turning === 'clockwise' ? point.angle_deg : -point.angle_deg;
  return (
    <g>
      {!lit && <circle cx={x} cy={y} r={circles > 1 ? 2.4 : 3} class={`ring-point ring-point-${point.state}`} />}
      {point.state === 'questioned' && (
        <text x={x} y={y - 6} class="ring-word">
          ?
        </text>
      )}
      {point.circle === 0 && !lit && (
        <text x={number.x} y={number.y} class="ring-number">
          {point.point + 1}
        </text>
      )}
      {down && (
        <path
          d="M0 0L-3.6 -6.4L3.6 -6.4Z"
          class="ring-lowest"
          transform={`translate(${tip.x} ${tip.y}) rotate(${turn + 180})`}
        />
      )}
    </g>
  );
}

function Lit({ point, circles, turning }: RingProps & { point: RingPoint }) {
  const band = bands(circles, INNER, OUTER)[point.circle];
  if (!band) return null;
  const { x, y } = spotAt(point.angle_deg, band.middle, turning);
  const radius = circles > 1 ? 6 : 9;
  return (
    <g class="ring-lit">
      <circle cx={x} cy={y} r={radius + 3} class="ring-halo" />
      <circle cx={x} cy={y} r={radius} />
      <text x={x} y={y} style={{ fontSize: `${radius + 2}px` }}>
        {point.point + 1}
      </text>
    </g>
  );
}

/** The index mark, and an arrow in the direction in which the points count. */
function Direction({ turning }: { turning: Turning }) {
  const from = spotAt(7, 107, turning);
  const to = spotAt(24, 107, turning);
  const sweep = turning === 'clockwise' ? 1 : 0;
  const side = turning === 'clockwise' ? 1 : -1;
  return (
    <g>
      <path d={`M0 ${-OUTER - 3}V${-OUTER + 5}`} class="ring-index" />
      <path d={`M${from.x} ${from.y}A107 107 0 0 ${sweep} ${to.x} ${to.y}`} class="ring-arrow" />
      <path
        d="M0 0L-5 -3V3Z"
        class="ring-arrow-head"
        transform={`translate(${to.x} ${to.y}) rotate(${side > 0 ? 26 : 154})`}
      />
    </g>
  );
}

type LegendProps = Pick<RingProps, 'meaning' | 'span_mm' | 'how'> & { middle_mm: number };

function Legend({ meaning, middle_mm, span_mm, how }: LegendProps) {
  return (
    <figcaption class="legend">
      <span class="legend-bar" />
      <span class="legend-words small">
        <span>
          {meaning.low} <span class="digits">{digitsOfMm(-span_mm, how)}</span>
        </span>
        <span>
          {meaning.middle} <span class="digits">{digitsOfMm(middle_mm, how)}</span>
        </span>
        <span>
          {meaning.high} <span class="digits">{digitsOfMm(span_mm, { ...how, sign: true })}</span>
        </span>
      </span>
      <span class="legend-words small soft">
        <span>
          <svg viewBox="-5 -8 10 9" width="10" height="9" aria-hidden="true">
            <path d="M0 0L-3.6 -6.4L3.6 -6.4Z" class="ring-lowest" />
          </svg>{' '}
          {meaning.lowest}
        </span>
        <span>{words.pictures.ring.seen}</span>
      </span>
    </figcaption>
  );
}
