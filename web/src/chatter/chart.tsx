import { useRef } from 'preact/hooks';
import { Figure, useWidth } from '../pictures/figure';
import { steppedBy } from '../plan/slider';
import { words } from '../words';
import { between, depthAt, line, type Plane, rangeOf, SHOWN_MM, ticksOf, wordAt, xOf, yOf } from './chart_geometry';
import { nearest, type Prospect, prospectIn } from './depths';
import { depthText, tickText } from './texts';

interface Props {
  /** Speeds of the curve with the depth at which each begins to sing. */
  curve_rpm: readonly number[];
  curve_mm: readonly (number | null)[];
  /** Of the limit at every speed: from where it may sing, and from where it will, over the limit itself. */
  edges: readonly [low: number, high: number];
  speeds: readonly { rpm: number; mm: number | null }[];
  told: boolean;
  depths: readonly number[];
  depth_mm: number;
  prospect: Prospect;
  onDepth: (mm: number) => void;
}

const HEIGHT = 380;
const MARGIN = { left: 58, right: 8, top: 16, bottom: 58 };

/** How deep it may be cut at each speed, and the depth of today as a line across it that a finger moves. */
export function Chart(props: Props) {
  const { curve_rpm, curve_mm, edges, speeds, told, depths, depth_mm, prospect, onDepth } = props;
  const { chart, prospect: said } = words.chatter;
  const [frame, width] = useWidth(560);
  const box = useRef<HTMLDivElement>(null);
  const plane: Plane = {
    ...MARGIN,
    width,
    height: HEIGHT,
    most_mm: Math.max(SHOWN_MM, depths.at(-1) ?? 0),
    ...rangeOf(speeds.map((one) => one.rpm)),
  };
  const scaled = (by: number) => curve_mm.map((mm) => (mm === null ? null : mm * by));
  const [low, high] = [scaled(edges[0]), scaled(edges[1])];
  const middle = Math.floor(curve_rpm.length / 2);
  const [y_low, y_high] = [yOf(plane, low[middle] ?? Infinity), yOf(plane, high[middle] ?? Infinity)];
  const floor = HEIGHT - MARGIN.bottom;
  const y = yOf(plane, depth_mm);
  const regions = [
    { key: 'holds', at: wordAt(y_low, floor, y) },
    { key: 'may', at: wordAt(y_high, y_low, y) },
    { key: 'sings', at: wordAt(MARGIN.top, y_high, y) },
  ] as const;
  const at = Math.max(0, depths.indexOf(depth_mm));
  const follow = (event: PointerEvent) => {
    const top = box.current?.getBoundingClientRect().top;
    if (top !== undefined) onDepth(nearest(depths, depthAt(plane, event.clientY - top)));
  };
  const rows = speeds.map(({ rpm, mm }) => [
    String(rpm),
    mm === null ? '–' : depthText(mm),
    mm === null ? '–' : said[prospectIn(depth_mm, edges[0] * mm, edges[1] * mm)],
  ]);
  return (
    <Figure
      name={chart.name}
      kind="chatter"
      says={speeds.map(({ rpm, mm }) => (mm === null ? '' : chart.says(String(rpm), depthText(mm)))).join(' ')}
      table={{ head: [...chart.head], rows }}
    >
      <p class="small soft" aria-hidden="true">
        {chart.depth}
      </p>
      <div ref={frame}>
        <div class="chatter-plane" ref={box} style={{ height: `${HEIGHT}px` }}>
          <svg width={width} height={HEIGHT} aria-hidden="true">
            <defs>
              <pattern
                id="chatter-hatch"
                width="9"
                height="9"
                patternUnits="userSpaceOnUse"
                patternTransform="rotate(45)"
              >
                <path d="M0 0V9" class="chatter-hatch" />
              </pattern>
            </defs>
            <path
              class="chatter-sings"
              d={between(
                plane,
                curve_rpm,
                high,
                curve_rpm.map(() => plane.most_mm),
              )}
            />
            <path class="chatter-may" d={between(plane, curve_rpm, low, high)} />
            {ticksOf(plane.most_mm).map((mm) => (
              <g key={mm}>
                <path class="chatter-grid" d={`M${MARGIN.left} ${yOf(plane, mm)}H${width - MARGIN.right}`} />
                <text class="trace-word" x={MARGIN.left - 8} y={yOf(plane, mm) + 5} text-anchor="end">
                  {tickText(mm)}
                </text>
              </g>
            ))}
            {speeds.map(({ rpm, mm }) => (
              <g key={rpm} class="chatter-speed">
                <path d={`M${xOf(plane, rpm)} ${MARGIN.top}V${floor + 6}`} />
                <text class="trace-word" x={xOf(plane, rpm)} y={floor + 22} text-anchor="middle">
                  {rpm}
                </text>
                {mm === null || mm > plane.most_mm ? null : <circle cx={xOf(plane, rpm)} cy={yOf(plane, mm)} r="5" />}
              </g>
            ))}
            <path class="chatter-curve" d={line(plane, curve_rpm, curve_mm)} />
            {regions.map(({ key, at: word }) =>
              word === null ? null : (
                <text key={key} class="chatter-word" x={MARGIN.left + 10} y={word}>
                  {said[key]}
                </text>
              ),
            )}
            <path class="chatter-depth" d={`M${MARGIN.left} ${y}H${width - MARGIN.right}`} />
            <text class="trace-word" x={width - MARGIN.right} y={HEIGHT - 12} text-anchor="end">
              {told ? chart.speed : chart.speed_assumed}
            </text>
          </svg>
          <div
            class="chatter-handle"
            style={{ top: `${y}px`, left: `${MARGIN.left}px`, right: `${MARGIN.right}px` }}
            role="slider"
            tabIndex={0}
            aria-orientation="vertical"
            aria-label={chart.today}
            aria-valuemin={depths[0] ?? 0}
            aria-valuemax={depths.at(-1) ?? 0}
            aria-valuenow={depth_mm}
            aria-valuetext={`${depthText(depth_mm)}, ${said[prospect]}`}
            onKeyDown={(event) => {
              const index = steppedBy(event.key, at, depths.length - 1);
              const next = index === null ? undefined : depths[index];
              if (next === undefined) return;
              event.preventDefault();
              onDepth(next);
            }}
            onPointerDown={(event) => {
              if (event.button === 0) event.currentTarget.setPointerCapture(event.pointerId);
            }}
            onPointerMove={(event) => {
              if (event.currentTarget.hasPointerCapture(event.pointerId)) follow(event);
            }}
          >
            <span class="chatter-grip figures">{depthText(depth_mm)}</span>
          </div>
        </div>
      </div>
      <p class="small soft">{chart.drag}</p>
    </Figure>
  );
}
