import { Figure, useWidth } from '../pictures/figure';
import { angle, digitsOfMm, type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import type { CutAnswer } from './answer';
import './check.css';

const HEIGHT = 190;
const TOP = 22;
const BASE = 160;

/** What came off at each point, as upright bars from nothing, with the line that the dials say. */
export function Removed({ answer, how }: { answer: CutAnswer; how: HowShown }) {
  const [frame, width] = useWidth(480);
  const { check } = words;
  const planned = answer.planned_um ?? null;
  const most = Math.max(...answer.removed.map((one) => one.removed_um), planned ?? 0, 1);
  const least = Math.min(0, ...answer.removed.map((one) => one.removed_um));
  const y = (um: number) => BASE - ((um - Math.max(least, -most / 4)) / (most - least)) * (BASE - TOP);
  const step = width / Math.max(1, answer.removed.length);
  const rows = answer.removed.map((one, i) => [
    String(i + 1),
    angle(one.angle_deg),
    lengthOfMm(one.before_mm, how),
    lengthOfMm(one.after_mm, how),
    lengthOfMm(one.removed_um / 1000, how),
  ]);
  const says = `${check.removed_mean} ${lengthOfMm(answer.removed_mean_um / 1000, how)}.`;
  return (
    <Figure
      name={check.removed}
      kind="removed"
      says={says}
      table={{ head: [check.point, check.angle, check.before, check.after, check.removed], rows }}
    >
      <div ref={frame}>
        <svg class="removed" width={width} height={HEIGHT} aria-hidden="true">
          {answer.removed.map((one, i) => (
            <g key={`${one.angle_deg}/${one.radius_mm ?? 0}`}>
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
          <line class="removed-base" x1="0" x2={width} y1={y(0)} y2={y(0)} />
          {planned === null ? null : <line class="removed-plan" x1="0" x2={width} y1={y(planned)} y2={y(planned)} />}
        </svg>
      </div>
    </Figure>
  );
}
