import { useId } from 'preact/hooks';
import { words } from '../words';
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
  /** Full thickness for the small edge beside the enlarged one; null for a drum, of whose wall only the inside is known. */
  whole_mm: number | null;
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
 * limits lie enlarged beside it. For a drum the millimetres are diameters with a minus: what wears goes downward here too.
 */
export function EdgeScale({ summary, rungs, zones, band_mm, whole_mm }: Props) {
  const hatch = useId();
  const shown = [...rungs.map((rung) => rung.mm), ...(band_mm ? [band_mm.low, band_mm.high] : [])];
  const scale = thicknessScale(shown, LENGTH);
  const y = (mm: number) => TOP + LENGTH - Math.min(Math.max(scale.at(mm), 0), LENGTH);
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
      {whole_mm === null ? <Grows /> : <WholeEdge whole_mm={whole_mm} low_mm={scale.low_mm} high_mm={scale.high_mm} />}
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

/** The whole edge, small, with the stretch that is looked at. */
function WholeEdge({ whole_mm, low_mm, high_mm }: { whole_mm: number; low_mm: number; high_mm: number }) {
  const whole = Math.max(whole_mm, high_mm);
  const y = (mm: number) => TOP + LENGTH - (mm / whole) * LENGTH;
  const top = y(Math.min(high_mm, whole));
  return (
    <>
      <rect class="edge" x={EDGE.x} y={y(whole_mm)} width={EDGE.width} height={TOP + LENGTH - y(whole_mm)} />
      <path
        class="leader"
        d={`M${EDGE.x + EDGE.width} ${y(low_mm)} L${BAR.x} ${TOP + LENGTH} M${EDGE.x + EDGE.width} ${top} L${BAR.x} ${TOP}`}
      />
      <rect class="looked-at" x={EDGE.x - 2} y={top} width={EDGE.width + 4} height={Math.max(2, y(low_mm) - top)} />
    </>
  );
}

/** Which way a drum goes as it wears. */
function Grows() {
  const x = EDGE.x + EDGE.width / 2;
  return (
    <>
      <path
        class="edge-arrow"
        d={`M${x} ${TOP} V${TOP + LENGTH} M${x - 7} ${TOP + LENGTH - 10} L${x} ${TOP + LENGTH} L${x + 7} ${TOP + LENGTH - 10}`}
      />
      <text
        class="zone-label"
        x={x}
        y={TOP + LENGTH / 2}
        transform={`rotate(-90 ${x} ${TOP + LENGTH / 2}) translate(0 -8)`}
      >
        {words.pictures.scale.grows}
      </text>
    </>
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
