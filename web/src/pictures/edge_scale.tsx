import { useId } from 'preact/hooks';
import { placeLabels, type Rung, thicknessScale } from './ladder';
import './edge_scale.css';

/** A labelled mark: limits are drawn across the whole bar, a state of the part as its surface. */
export interface ScaleRung extends Rung {
  label: string;
  digits: string;
  kind: 'machine_to' | 'discard' | 'surface' | 'ghost';
  active?: boolean;
}

/** A stretch of thickness: metal that stays, metal that goes, metal that is gone, and the two rooms between limits. */
export interface ScaleZone {
  from_mm: number;
  to_mm: number;
  look: 'metal' | 'off' | 'gone' | 'stock' | 'room' | 'scrap';
  label?: string;
}

interface Props {
  /** Says in words what the picture shows. */
  summary: string;
  rungs: readonly ScaleRung[];
  zones: readonly ScaleZone[];
  /** Where a thickness most likely lies, beside the bar. */
  band_mm?: { low: number; high: number } | undefined;
  /** Full thickness for the small edge beside the enlarged one. */
  whole_mm: number;
}

const WIDTH = 360;
const HEIGHT = 292;
const TOP = 14;
const LENGTH = 264;
const EDGE = { x: 4, width: 22 };
const BAR = { x: 62, width: 94 };
const LABEL_X = 180;
const LABEL_GAP = 37;

/**
 * A rotor's edge in section, thickness upward, to scale: the whole edge small at the left, and the stretch in which its
 * limits lie enlarged beside it.
 */
export function EdgeScale({ summary, rungs, zones, band_mm, whole_mm }: Props) {
  const hatch = useId();
  const shown = [...rungs.map((rung) => rung.mm), ...(band_mm ? [band_mm.low, band_mm.high] : [])];
  const scale = thicknessScale(shown, LENGTH);
  const y = (mm: number) => TOP + LENGTH - Math.min(Math.max(scale.at(mm), 0), LENGTH);
  const whole = Math.max(whole_mm, scale.high_mm);
  const wholeY = (mm: number) => TOP + LENGTH - (mm / whole) * LENGTH;
  const placed = placeLabels(rungs, (mm) => TOP + LENGTH - scale.at(mm), LABEL_GAP, HEIGHT - 18);
  return (
    <svg class="edge-scale" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={summary}>
      <defs>
        <pattern id={`${hatch}off`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line class="hatch-off" x1="0" y1="0" x2="0" y2="6" />
        </pattern>
        <pattern id={`${hatch}scrap`} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <line class="hatch-scrap" x1="0" y1="0" x2="0" y2="7" />
        </pattern>
      </defs>
      <rect class="edge" x={EDGE.x} y={wholeY(whole_mm)} width={EDGE.width} height={TOP + LENGTH - wholeY(whole_mm)} />
      <path
        class="leader"
        d={`M${EDGE.x + EDGE.width} ${wholeY(scale.low_mm)} L${BAR.x} ${TOP + LENGTH} M${EDGE.x + EDGE.width} ${wholeY(
          Math.min(scale.high_mm, whole),
        )} L${BAR.x} ${TOP}`}
      />
      <rect
        class="looked-at"
        x={EDGE.x - 2}
        y={wholeY(Math.min(scale.high_mm, whole))}
        width={EDGE.width + 4}
        height={Math.max(2, wholeY(scale.low_mm) - wholeY(Math.min(scale.high_mm, whole)))}
      />
      {zones.map((zone) => {
        const top = y(zone.to_mm);
        const height = Math.max(0, y(zone.from_mm) - top);
        const fill = zone.look === 'off' || zone.look === 'scrap' ? { fill: `url(#${hatch}${zone.look})` } : {};
        return (
          <g key={`${zone.look}${zone.from_mm}`}>
            <rect class={`zone zone-${zone.look}`} x={BAR.x} y={top} width={BAR.width} height={height} {...fill} />
            {zone.label && height >= 18 ? (
              <text class="zone-label" x={BAR.x + BAR.width / 2} y={top + height / 2 + 4}>
                {zone.label}
              </text>
            ) : null}
          </g>
        );
      })}
      {band_mm ? (
        <path class="band" d={`M${BAR.x + BAR.width + 5} ${y(band_mm.high)} h4 V${y(band_mm.low)} h-4`} />
      ) : null}
      {placed.map((rung) => (
        <Mark key={rung.name} rung={rung as ScaleRung & typeof rung} />
      ))}
    </svg>
  );
}

function Mark({ rung }: { rung: ScaleRung & { at: number; label_at: number } }) {
  const right = BAR.x + BAR.width;
  const reach = rung.kind === 'discard' || rung.kind === 'machine_to' ? 8 : 0;
  const classes = `mark mark-${rung.kind}${rung.active ? ' active' : ''}`;
  return (
    <g class={classes}>
      <line class="stroke" x1={BAR.x - reach} x2={right + reach} y1={rung.at} y2={rung.at} />
      {rung.kind === 'discard' ? (
        <line class="stroke" x1={BAR.x - reach} x2={right + reach} y1={rung.at + 4} y2={rung.at + 4} />
      ) : null}
      <path class="to-label" d={`M${right + Math.max(reach, 11)} ${rung.at} L${LABEL_X - 4} ${rung.label_at}`} />
      <text class="rung-digits figures" x={LABEL_X} y={rung.label_at - 1}>
        {rung.digits}
      </text>
      <text class="rung-label" x={LABEL_X} y={rung.label_at + 14}>
        {rung.label}
      </text>
    </g>
  );
}
