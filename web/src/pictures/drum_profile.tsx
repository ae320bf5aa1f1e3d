import { digitsOfMm, type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import { type DepthMean, type DrumShape, drawnDepth, shapeOf } from './drum_geometry';
import { Figure, useWidth } from './figure';

interface Props {
  depths: readonly DepthMean[];
  band_mm: number | null;
  how: HowShown;
  /** As the verdict names it, where it has; else by the means themselves. */
  shape?: DrumShape;
}

const HEIGHT = 150;
const MARGIN = { left: 12, right: 12, top: 34, bottom: 30 };

/** Mean diameters along the depth, open edge at the left, differences enlarged: wider is higher. */
export function DrumProfile({ depths, band_mm, how, shape }: Props) {
  const [frame, width] = useWidth(420);
  const { drum } = words.pictures;
  const sorted = [...depths].sort((a, b) => a.depth_mm - b.depth_mm);
  const means = sorted.map((one) => one.mean_mm);
  const least = Math.min(...means);
  const span = Math.max(Math.max(...means) - least, (4 * how.resolution_nm) / 1e6);
  const reach = drawnDepth(
    sorted.map((one) => one.depth_mm),
    band_mm,
  );
  const x = (depth: number) => MARGIN.left + (depth / reach) * (width - MARGIN.left - MARGIN.right);
  const y = (mm: number) => HEIGHT - MARGIN.bottom - ((mm - least) / span) * (HEIGHT - MARGIN.top - MARGIN.bottom);
  const depth_how = { unit: how.unit, resolution_nm: how.unit === 'mm' ? 1_000_000 : 1_270_000 } as const;
  const rows = sorted.map((one) => [lengthOfMm(one.depth_mm, depth_how), lengthOfMm(one.mean_mm, how)]);
  const word = drum.shapes[shape ?? shapeOf(sorted, how.resolution_nm / 1e6)];
  const ends = [sorted[0], ...sorted, sorted.at(-1)].flatMap((one, i, all) =>
    one ? [{ at: i === 0 ? 0 : i === all.length - 1 ? reach : one.depth_mm, mm: one.mean_mm }] : [],
  );
  return (
    <Figure
      name={drum.profile}
      kind="drum-profile"
      says={`${word}. ${rows.map((row) => row.join(': ')).join('; ')}.`}
      table={{ head: [drum.depth, drum.mean], rows }}
    >
      <div ref={frame}>
        <svg width={width} height={HEIGHT} aria-hidden="true">
          <path
            class="drum-iron"
            d={`M${ends.map((end) => `${x(end.at)} ${y(end.mm)}`).join('L')}L${x(reach)} 4H${x(0)}Z`}
          />
          <path class="drum-profile" d={`M${ends.map((end) => `${x(end.at)} ${y(end.mm)}`).join('L')}`} />
          {sorted.map((one, i) => (
            <g key={one.depth_mm}>
              <circle class="drum-profile-point" cx={x(one.depth_mm)} cy={y(one.mean_mm)} r="5" />
              <text
                class="drum-value figures"
                x={x(one.depth_mm)}
                y={y(one.mean_mm) + 21}
                text-anchor={i === 0 ? 'start' : i === sorted.length - 1 ? 'end' : 'middle'}
              >
                {digitsOfMm(one.mean_mm, how)}
              </text>
            </g>
          ))}
          <text class="drum-word" x={MARGIN.left} y={HEIGHT - 2}>
            {drum.open_edge}
          </text>
          <text class="drum-word" x={width - MARGIN.right} y={HEIGHT - 2} text-anchor="end">
            {drum.closed_end}
          </text>
        </svg>
      </div>
      <p class="small">
        {word}. <span class="soft">{drum.not_to_scale}</span>
      </p>
    </Figure>
  );
}
