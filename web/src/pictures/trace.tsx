import { angle, digitsOfMm, type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import { Figure, useWidth } from './figure';

/** Values round the circle, unrolled, with the limits they are held against. Each series has its own shape of point. */
export interface TraceSeries {
  name: string;
  points: readonly { angle_deg: number; value_mm: number }[];
}

export interface TraceProps {
  name: string;
  series: readonly TraceSeries[];
  /** Level lines that carry a word each. */
  limits?: readonly { value_mm: number; word: string }[];
  how: HowShown;
  height?: number;
  /** How far the circle is unrolled; half a turn for diameters, which are the same half a turn on. */
  over_deg?: 360 | 180;
}

const MARGIN = { left: 12, right: 12, top: 26, bottom: 44 };

/** Least and greatest of what is drawn, with air; a flat line lies in the middle. */
export function traceRange(values: readonly number[], step_mm: number): { low: number; high: number } {
  if (values.length === 0) return { low: 0, high: 1 };
  const low = Math.min(...values);
  const high = Math.max(...values);
  const air = Math.max(0.12 * (high - low), 2 * step_mm);
  return { low: low - air, high: high + air };
}

export function Trace({ name, series, limits = [], how, height = 220, over_deg = 360 }: TraceProps) {
  const [frame, width] = useWidth(560);
  const drawn = [...series.flatMap((one) => one.points.map((p) => p.value_mm)), ...limits.map((one) => one.value_mm)];
  const { low, high } = traceRange(drawn, how.resolution_nm / 1e6);
  const x = (degrees: number) => MARGIN.left + (degrees / over_deg) * (width - MARGIN.left - MARGIN.right);
  const y = (mm: number) => MARGIN.top + ((high - mm) / (high - low)) * (height - MARGIN.top - MARGIN.bottom);
  const angles = [...new Set(series.flatMap((one) => one.points.map((p) => p.angle_deg)))].sort((a, b) => a - b);
  const table = {
    head: [words.pictures.angle, ...series.map((one) => one.name)],
    rows: angles.map((degrees) => [
      angle(degrees),
      ...series.map((one) => {
        const found = one.points.find((p) => p.angle_deg === degrees);
        return found ? lengthOfMm(found.value_mm, how) : '';
      }),
    ]),
  };
  const says = series
    .map((one) => {
      const values = one.points.map((p) => p.value_mm);
      return values.length
        ? words.pictures.trace.says(
            one.name,
            lengthOfMm(Math.min(...values), how),
            lengthOfMm(Math.max(...values), how),
          )
        : '';
    })
    .join(' ');
  return (
    <Figure name={name} kind="trace" says={says} table={table}>
      <div ref={frame}>
        <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
          {[0, 0.25, 0.5, 0.75, 1]
            .map((share) => share * over_deg)
            .map((degrees) => (
              <g key={degrees}>
                <path d={`M${x(degrees)} ${MARGIN.top}V${height - MARGIN.bottom}`} class="trace-grid" />
                <text
                  x={x(degrees)}
                  y={height - 8}
                  class="trace-word"
                  text-anchor={degrees === 0 ? 'start' : degrees === over_deg ? 'end' : 'middle'}
                >
                  {degrees}°
                </text>
              </g>
            ))}
          {limits.map((limit) => (
            <g key={limit.word}>
              <path d={`M${MARGIN.left} ${y(limit.value_mm)}H${width - MARGIN.right}`} class="trace-limit" />
              <text x={width - MARGIN.right} y={y(limit.value_mm) - 4} class="trace-word" text-anchor="end">
                {limit.word} {digitsOfMm(limit.value_mm, how)}
              </text>
            </g>
          ))}
          {series.map((one, i) => (
            <g key={one.name}>
              <Line one={one} i={i} x={x} y={y} over_deg={over_deg} />
              <Ends one={one} x={x} y={y} how={how} width={width} />
            </g>
          ))}
        </svg>
      </div>
      {series.length > 1 && (
        <figcaption class="legend-series small">
          {series.map((one, i) => (
            <span key={one.name}>
              <svg width="18" height="12" viewBox="-9 -6 18 12" aria-hidden="true" class={`series-${(i % 3) + 1}`}>
                <path d="M-9 0H9" class="trace-line" />
                <Shape i={i} />
              </svg>{' '}
              {one.name}
            </span>
          ))}
        </figcaption>
      )}
    </Figure>
  );
}

interface LineProps {
  one: TraceSeries;
  i: number;
  x: (degrees: number) => number;
  y: (mm: number) => number;
  over_deg: number;
}

function Line({ one, i, x, y, over_deg }: LineProps) {
  const points = [...one.points].sort((a, b) => a.angle_deg - b.angle_deg);
  return (
    <g class={`series-${(i % 3) + 1}`}>
      <path d={polyline(points, x, y, over_deg)} class="trace-line" />
      {points.map((p) => (
        <g key={p.angle_deg} transform={`translate(${x(p.angle_deg)} ${y(p.value_mm)})`}>
          <Shape i={i} />
        </g>
      ))}
    </g>
  );
}

const GAP = 1.6;

/** Once round: the first point is met again at the end. Where points are missing the line is broken. */
function polyline(
  points: TraceSeries['points'],
  x: (degrees: number) => number,
  y: (mm: number) => number,
  over_deg: number,
): string {
  const first = points[0];
  if (!first || points.length < 2) return '';
  const round = [...points, { ...first, angle_deg: first.angle_deg + over_deg }];
  const steps = round.slice(1).map((p, k) => p.angle_deg - (round[k]?.angle_deg ?? 0));
  const usual = Math.min(...steps);
  return round
    .map((p, k) => {
      const joined = k > 0 && (steps[k - 1] ?? 0) <= GAP * usual;
      return p.angle_deg > over_deg ? '' : `${joined ? 'L' : 'M'}${x(p.angle_deg)} ${y(p.value_mm)}`;
    })
    .join('');
}

interface EndsProps extends Omit<LineProps, 'i' | 'over_deg'> {
  how: HowShown;
  width: number;
}

/** The highest and the lowest point with their values. */
function Ends({ one, x, y, how, width }: EndsProps) {
  const sorted = [...one.points].sort((a, b) => a.value_mm - b.value_mm);
  const ends = sorted.length > 1 ? [sorted[0], sorted.at(-1)] : sorted;
  return (
    <g>
      {ends.map((end, k) => {
        if (!end) return null;
        const at = x(end.angle_deg);
        const anchor = at < 50 ? 'start' : at > width - 50 ? 'end' : 'middle';
        return (
          <text
            key={end.angle_deg}
            x={at}
            y={y(end.value_mm) + (k ? -10 : 20)}
            text-anchor={anchor}
            class="trace-value"
          >
            {digitsOfMm(end.value_mm, how)}
          </text>
        );
      })}
    </g>
  );
}

function Shape({ i }: { i: number }) {
  if (i % 3 === 1) return <path d="M0 -5L4.6 3.4H-4.6Z" class="trace-point" />;
  if (i % 3 === 2) return <path d="M-3.6 -3.6H3.6V3.6H-3.6Z" class="trace-point" />;
  return <circle r="4" class="trace-point" />;
}
