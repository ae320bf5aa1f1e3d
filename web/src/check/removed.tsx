import { Figure, useWidth } from '../pictures/figure';
import { angle, digitsOfMm, type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import type { CutAnswer } from './answer';
import './check.css';

const HEIGHT = 190;
const TOP = 22;
const BASE = 160;
const CIRCLE_LINE = 20;

/** The circles that follow each other, with the bars that stand on each. */
function circlesOf(removed: CutAnswer['removed']): { mm: number | null; from: number; count: number }[] {
  const circles: { mm: number | null; from: number; count: number }[] = [];
  for (const [i, { circle_mm }] of removed.entries()) {
    const last = circles.at(-1);
    if (last && last.mm === circle_mm) last.count += 1;
    else circles.push({ mm: circle_mm, from: i, count: 1 });
  }
  return circles;
}

/** What came off at each point, as upright bars from nothing, with the line that the dials say. */
export function Removed({ answer, how }: { answer: CutAnswer; how: HowShown }) {
  const [frame, width] = useWidth(480);
  const { check } = words;
  const planned = answer.planned_um ?? null;
  const most = Math.max(...answer.removed.map((one) => one.removed_um), planned ?? 0, 1);
  const least = Math.min(0, ...answer.removed.map((one) => one.removed_um));
  const y = (um: number) => BASE - ((um - Math.max(least, -most / 4)) / (most - least)) * (BASE - TOP);
  const step = width / Math.max(1, answer.removed.length);
  const circles = circlesOf(answer.removed);
  const circle = (mm: number | null) => check.on_circle(lengthOfMm(mm ?? 0, { ...how, resolution_nm: 1_000_000 }));
  const rows = answer.removed.map((one, i) => [
    String(i + 1),
    circles.length > 1 ? `${angle(one.angle_deg)}, ${circle(one.circle_mm)}` : angle(one.angle_deg),
    lengthOfMm(one.before_mm, how),
    lengthOfMm(one.after_mm, how),
    lengthOfMm(one.removed_um / 1000, how),
  ]);
  const height = circles.length > 1 ? HEIGHT + CIRCLE_LINE : HEIGHT;
  const says = `${check.removed_mean} ${lengthOfMm(answer.removed_mean_um / 1000, how)}.`;
  return (
    <Figure
      name={check.removed}
      kind="removed"
      says={says}
      table={{ head: [check.point, check.angle, check.before, check.after, check.removed], rows }}
    >
      <div ref={frame}>
        <svg class="removed" width={width} height={height} aria-hidden="true">
          {answer.removed.map((one, i) => (
            <g key={`${one.angle_deg}/${one.circle_mm ?? 0}`}>
              <rect
                class="removed-bar"
                x={i * step + step * 0.08}
                width={step * 0.84}
                y={Math.min(y(one.removed_um), y(0))}
                height={Math.abs(y(0) - y(one.removed_um))}
              />
              {step >= 46 ? (
                <text class="removed-value figures" x={(i + 0.5) * step} y={y(0) - 10}>
                  {digitsOfMm(one.removed_um / 1000, how)}
                </text>
              ) : null}
              {step >= 26 ? (
                <text class="removed-angle" x={(i + 0.5) * step} y={HEIGHT - 8}>
                  {angle(one.angle_deg)}
                </text>
              ) : null}
            </g>
          ))}
          {circles.length > 1
            ? circles.map(({ mm, from, count }) => (
                <text key={mm} class="removed-angle" x={(from + count / 2) * step} y={height - 6}>
                  {circle(mm)}
                </text>
              ))
            : null}
          <line class="removed-base" x1="0" x2={width} y1={y(0)} y2={y(0)} />
          {planned === null ? null : <line class="removed-plan" x1="0" x2={width} y1={y(planned)} y2={y(planned)} />}
        </svg>
      </div>
    </Figure>
  );
}
