import { useRef, useState } from 'preact/hooks';
import { Figure } from '../pictures/figure';
import { angleOf, shade, shadeColour, spotAt } from '../pictures/ring_geometry';
import { words } from '../words';
import type { BenchMake } from './model';
import { clamped, inTurn, whole } from './numbers';
import type { BenchReading } from './readings';

/** Where the micrometer stands on the part. */
export interface Spot {
  angle_deg: number;
  radius_mm: number;
}

interface Props {
  make: BenchMake;
  studs_deg: readonly number[];
  readings: readonly BenchReading[];
  spot: Spot;
  onSpot: (spot: Spot) => void;
  onMeasure: () => void;
}

const EDGE = 92;
export const ANGLE_STEP_DEG = 15;
export const RADIUS_STEP_MM = 1;
const DRAG_STARTS_PX = 8;
const KEYS: Record<string, Spot> = {
  ArrowRight: { angle_deg: ANGLE_STEP_DEG, radius_mm: 0 },
  ArrowLeft: { angle_deg: -ANGLE_STEP_DEG, radius_mm: 0 },
  ArrowUp: { angle_deg: 0, radius_mm: RADIUS_STEP_MM },
  ArrowDown: { angle_deg: 0, radius_mm: -RADIUS_STEP_MM },
};

/** So far in from an edge of the face an anvil still bears on iron. */
const OFF_EDGE_MM = 2;

export function onFace(make: BenchMake, spot: Spot): Spot {
  const [low, high] = [make.inner_radius_mm + OFF_EDGE_MM, make.outer_radius_mm - OFF_EDGE_MM];
  return {
    angle_deg: Math.round(inTurn(spot.angle_deg)) % 360,
    radius_mm: Math.round(2 * clamped(spot.radius_mm, low, high)) / 2,
  };
}

/** Where a finger points, in the drawing's own places. */
function pointed(event: PointerEvent): { x: number; y: number } {
  const box = (event.currentTarget as Element).getBoundingClientRect();
  const scale = 220 / Math.max(1, Math.min(box.width, box.height));
  return {
    x: (event.clientX - box.left - box.width / 2) * scale,
    y: (event.clientY - box.top - box.height / 2) * scale,
  };
}

/** The part on the bench, to scale: a tap sets the micrometer, a drag turns the part under the eye. */
export function PartFace(props: Props) {
  const { measure: said } = words.practice_bench;
  const { make, spot, onSpot, onMeasure } = props;
  const [turned, setTurned] = useState(0);
  const drag = useRef<{ x: number; y: number; at_deg: number; moved: boolean } | null>(null);
  const scale = EDGE / make.outer_radius_mm;
  const move = (by: Spot) =>
    onSpot(onFace(make, { angle_deg: spot.angle_deg + by.angle_deg, radius_mm: spot.radius_mm + by.radius_mm }));
  const down = (event: PointerEvent) => {
    (event.currentTarget as Element).setPointerCapture?.(event.pointerId);
    drag.current = { x: event.clientX, y: event.clientY, at_deg: angleOf(pointed(event), 'clockwise'), moved: false };
  };
  const moving = (event: PointerEvent) => {
    const held = drag.current;
    if (!held) return;
    held.moved ||= Math.hypot(event.clientX - held.x, event.clientY - held.y) > DRAG_STARTS_PX;
    if (!held.moved) return;
    const at_deg = angleOf(pointed(event), 'clockwise');
    setTurned((now) => now + at_deg - held.at_deg);
    held.at_deg = at_deg;
  };
  const up = (event: PointerEvent) => {
    const held = drag.current;
    drag.current = null;
    if (!held || held.moved) return;
    const at = pointed(event);
    onSpot(onFace(make, { angle_deg: angleOf(at, 'clockwise') - turned, radius_mm: Math.hypot(at.x, at.y) / scale }));
  };
  const keys = (event: KeyboardEvent) => {
    const step = KEYS[event.key];
    if (event.key !== 'Enter' && !step) return;
    event.preventDefault();
    event.stopPropagation();
    if (!step) {
      if (!event.repeat) onMeasure();
      return;
    }
    if (event.shiftKey) setTurned((now) => now + step.angle_deg);
    else move(step);
  };
  return (
    <Figure name={said.ring} kind="ring" says={said.ring_says(whole(spot.angle_deg), `${whole(spot.radius_mm)} mm`)}>
      <div
        class="face-field"
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it has keys of its own, named in its label
        tabIndex={0}
        aria-label={said.place}
        onKeyDown={keys}
        onPointerDown={down}
        onPointerMove={moving}
        onPointerUp={up}
        onPointerCancel={() => {
          drag.current = null;
        }}
      >
        <svg class="ring part-face" viewBox="-110 -110 220 220" aria-hidden="true">
          <g transform={`rotate(${turned})`}>
            <Iron make={make} scale={scale} studs_deg={props.studs_deg} />
            <Points readings={props.readings} scale={scale} />
            <Micrometer spot={spot} scale={scale} />
          </g>
        </svg>
      </div>
    </Figure>
  );
}

/** A part with its hub has the wheel's studs in it, and round the bore of each race its ring. */
const WHEEL_STUDS_DEG = [0, 72, 144, 216, 288];
const RACE_MM = 7;

function Iron({ make, scale, studs_deg }: { make: BenchMake; scale: number; studs_deg: readonly number[] }) {
  const { seat } = make;
  const hubbed = seat.kind === 'hubbed';
  const bore = ((hubbed ? seat.outer_race_mm : seat.bore_mm) / 2) * scale;
  const pitch = (bore + make.hat_radius_mm * scale) / 2;
  return (
    <g>
      <circle r={EDGE} class="ring-metal" />
      <circle r={make.band_outer_radius_mm * scale} class="ring-line" />
      <circle r={make.band_inner_radius_mm * scale} class="ring-line" />
      <circle r={make.inner_radius_mm * scale} class="ring-plate" />
      <circle r={make.hat_radius_mm * scale} class="ring-metal" />
      {hubbed ? <circle r={bore + RACE_MM * scale} class="ring-line part-race" /> : null}
      <circle r={bore} class="ring-plate" />
      {(hubbed ? WHEEL_STUDS_DEG : studs_deg).map((deg) => {
        const { x, y } = spotAt(deg, pitch, 'clockwise');
        return <circle key={deg} cx={x} cy={y} r={3.4} class={hubbed ? 'ring-line' : 'ring-plate'} />;
      })}
      <path d={`M0 ${-EDGE - 2}V${-EDGE + 6}`} class="ring-index" />
    </g>
  );
}

/** Readings so far, coloured by how far each lies from their mean. */
function Points({ readings, scale }: { readings: readonly BenchReading[]; scale: number }) {
  const values = readings.map((one) => one.shown_mm);
  const middle = values.reduce((sum, one) => sum + one, 0) / Math.max(1, values.length);
  const span = Math.max(...values.map((one) => Math.abs(one - middle)), 0.01);
  return (
    <g>
      {readings.map((one) => {
        const { x, y } = spotAt(one.angle_deg, one.radius_mm * scale, 'clockwise');
        const fill = shadeColour(shade(one.shown_mm, middle, span) ?? 0);
        return <circle key={one.number} cx={x} cy={y} r={4} class="face-reading" style={{ fill }} />;
      })}
    </g>
  );
}

/** Its frame reaches over the rim; the anvil is where it reads. */
function Micrometer({ spot, scale }: { spot: Spot; scale: number }) {
  const at = spot.radius_mm * scale;
  return (
    <g transform={`rotate(${spot.angle_deg})`} class="micrometer">
      <path d={`M-5 ${-at}V-104H5V${-at}`} />
      <circle cx={0} cy={-at} r={5} />
      <circle cx={0} cy={-at} r={1.4} class="micrometer-tip" />
    </g>
  );
}
