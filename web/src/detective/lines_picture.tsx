import type { CalcPulsationOutput } from '../api/schema';
import { Figure, useWidth } from '../pictures/figure';
import { words } from '../words';
import type { Zone } from './heard';

export type Line = CalcPulsationOutput['recordings'][number]['lines'][number];

const HEIGHT = 220;
const MARGIN = { left: 10, right: 10, top: 30, bottom: 42 };
const [LOWEST_HZ, HIGHEST_HZ] = [2, 60];
const TICKS = [2, 5, 10, 20, 50];

/** What beats in a recording: each line as high as it stands over the noise, among where the wheel's rhythms should be. */
export function LinesPicture({ lines, zones }: { lines: readonly Line[]; zones: readonly Zone[] }) {
  const { ear, often } = words.detective;
  const [frame, width] = useWidth(560);
  const bottom = HEIGHT - MARGIN.bottom;
  const x = (hz: number) => {
    const share = Math.log(hz / LOWEST_HZ) / Math.log(HIGHEST_HZ / LOWEST_HZ);
    return MARGIN.left + Math.min(Math.max(share, 0), 1) * (width - MARGIN.left - MARGIN.right);
  };
  const most_db = Math.max(...lines.map((line) => line.snr_db), 1);
  const y = (db: number) => bottom - (Math.max(db, 0) / most_db) * (bottom - MARGIN.top - 18);
  const shown = zones.filter((zone) => zone.high_hz > LOWEST_HZ && zone.low_hz < HIGHEST_HZ);
  return (
    <Figure
      name={ear.lines}
      kind="lines"
      says={lines
        .map((line) => `${line.hz.toFixed(1)} ${words.detective.per_second}, ${ear.kind[line.kind]}.`)
        .join(' ')}
    >
      <div ref={frame}>
        <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} aria-hidden="true">
          {shown.map((zone) => (
            <g key={zone.order} class="line-zone">
              <rect
                x={x(zone.low_hz)}
                width={Math.max(2, x(zone.high_hz) - x(zone.low_hz))}
                y={MARGIN.top - 8}
                height={bottom - MARGIN.top + 8}
              />
              <text
                x={(x(zone.low_hz) + x(zone.high_hz)) / 2}
                y={MARGIN.top - 13}
                text-anchor="middle"
                class="trace-word"
              >
                <title>{often(zone.order)}</title>
                {zone.order}×
              </text>
            </g>
          ))}
          <path d={`M${MARGIN.left} ${bottom}H${width - MARGIN.right}`} class="line-base" />
          {TICKS.map((hz) => (
            <text
              key={hz}
              x={x(hz)}
              y={bottom + 18}
              text-anchor={hz === LOWEST_HZ ? 'start' : 'middle'}
              class="trace-word"
            >
              {hz}
            </text>
          ))}
          <text x={width - MARGIN.right} y={HEIGHT - 6} text-anchor="end" class="trace-word">
            {ear.axis}
          </text>
          {lines.map((line, i) => (
            <g key={line.hz} class={line.kind === 'tone' ? 'line-tone' : 'line-loudness'}>
              <path d={`M${x(line.hz)} ${bottom}V${y(line.snr_db)}`} />
              <circle cx={x(line.hz)} cy={y(line.snr_db)} r="10" />
              <text x={x(line.hz)} y={y(line.snr_db) + 5} text-anchor="middle">
                {i + 1}
              </text>
            </g>
          ))}
        </svg>
      </div>
    </Figure>
  );
}
