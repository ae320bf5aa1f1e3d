import type { CalcRoughnessOutput } from '../api/schema';
import { Figure, useWidth } from '../pictures/figure';
import { words } from '../words';

type Drawn = NonNullable<CalcRoughnessOutput['drawn']>;

const HEIGHT = 110;
const MARGIN = { top: 18, bottom: 18 };

/** Highest and lowest of each column as one band about the mean. */
export function bandPath(drawn: Drawn, x: (mm: number) => number, y: (um: number) => number): string {
  const upper = drawn.x_mm.map((mm, i) => `${x(mm).toFixed(1)} ${y(drawn.high_um[i] ?? 0).toFixed(1)}`);
  const lower = drawn.x_mm.map((mm, i) => `${x(mm).toFixed(1)} ${y(drawn.low_um[i] ?? 0).toFixed(1)}`).reverse();
  return upper.length > 0 ? `M${[...upper, ...lower].join('L')}Z` : '';
}

/** The profile drawn small, about its mean. */
export function ProfilePicture({ drawn }: { drawn: Drawn }) {
  const said = words.profile;
  const [frame, width] = useWidth(560);
  const high = Math.max(...drawn.high_um);
  const low = Math.min(...drawn.low_um);
  const span = Math.max(high - low, 1e-6);
  const [first, last] = [drawn.x_mm[0] ?? 0, drawn.x_mm.at(-1) ?? 1];
  const x = (mm: number) => (width * (mm - first)) / Math.max(last - first, 1e-9);
  const y = (um: number) => MARGIN.top + ((high - um) / span) * (HEIGHT - MARGIN.top - MARGIN.bottom);
  const um = (value: number) => `${value.toFixed(2)} µm`;
  const length = `${(last - first).toFixed(1)} mm`;
  return (
    <Figure name={said.picture} kind="profile" says={said.says(length, um(high), um(-low))}>
      <div ref={frame}>
        <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} aria-hidden="true">
          <path d={`M0 ${y(0)}H${width}`} class="trace-grid" />
          <path d={bandPath(drawn, x, y)} class="profile-band" />
          <text x={0} y={12} class="trace-word">
            +{um(high)}
          </text>
          <text x={0} y={HEIGHT - 3} class="trace-word">
            −{um(-low)}
          </text>
          <text x={width} y={HEIGHT - 3} class="trace-word" text-anchor="end">
            {length}
          </text>
        </svg>
      </div>
    </Figure>
  );
}
