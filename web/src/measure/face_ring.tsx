import { DrumSection } from '../pictures/drum_section';
import { Ring, type RingPoint } from '../pictures/ring';
import { NM_PER_IN, NM_PER_MM } from '../show/length';
import { words } from '../words';
import { active, choose, drawnCircle, how, part, plan, questioned, shownHere, slots, spread, tab } from './at_bench';
import { meanAt, readingsAt, type Shown } from './shown';
import { angleOfPoint, isSize, type Slot } from './slots';

/**
 * The face with this tab's readings on it; a tap on a point lights it. `glance` is the same in small, beside the reading
 * on phones, only to be looked at.
 */
export function FaceRing({ glance = false }: { glance?: boolean }) {
  const current = plan.value;
  if (!current) return null;
  const round = tab.value.round;
  const points: RingPoint[] = round ? slots.value.map(ringPoint) : [];
  const values = points.flatMap((point) => (point.value_mm === null ? [] : [point.value_mm]));
  const size = isSize(tab.value);
  const across = tab.value.name === 'diameter';
  const middle = values.length ? (size ? mean(values) : (Math.min(...values) + Math.max(...values)) / 2) : null;
  const sorted = points
    .filter((point) => point.value_mm !== null)
    .sort((a, b) => (a.value_mm ?? 0) - (b.value_mm ?? 0));
  const worst = across ? sorted.at(-1) : sorted[0];
  const lit = questioned.value?.slot ?? active.value;
  return (
    <div class={glance ? 'glance' : 'measure-ring'} aria-hidden={glance}>
      <Ring
        bare={glance}
        name={words.measure.ring.name(words.measure.tab[tab.value.name])}
        points={points}
        circles={Math.max(...points.map((point) => point.circle + 1), 1)}
        turning={current.turning}
        meaning={across ? words.measure.ring.diameter : size ? words.measure.ring.thickness : words.measure.ring.runout}
        middle_mm={middle}
        span_mm={middle === null ? 0 : spanOf(values, middle)}
        how={how.value}
        active={round && lit ? { circle: drawnCircle(lit), point: lit.point } : null}
        across={across}
        lowest={size && values.length > 1 ? (worst ?? null) : null}
        onPick={(point) => {
          const slot = slots.value.find((one) => drawnCircle(one) === point.circle && one.point === point.point);
          if (slot) choose(slot);
        }}
      />
      {across && !glance ? <DepthHere depth={lit?.circle ?? null} /> : null}
    </div>
  );
}

/** At which depth of the drum the gauge is held now. */
function DepthHere({ depth }: { depth: number | null }) {
  const band = part.value?.band_width?.nm;
  const { unit } = how.value;
  return (
    <DrumSection
      depths_mm={(plan.value?.circles_from_edge_nm ?? []).map((nm) => nm / NM_PER_MM)}
      band_mm={band ? band / NM_PER_MM : null}
      active={depth}
      how={{ unit, resolution_nm: unit === 'mm' ? NM_PER_MM : NM_PER_IN / 20 }}
    />
  );
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Full colour stands for half the limit to either side, so that a strong colour means out of the ordinary. */
function spanOf(values: readonly number[], middle: number): number {
  const limits = part.value?.limits;
  const { name } = tab.value;
  const limit = limits?.[name === 'diameter' ? 'out_of_round' : name === 'thickness' ? 'variation' : 'runout'];
  if (limit?.value.nm) return limit.value.nm / 2e6;
  const far = Math.max(...values.map((value) => Math.abs(value - middle)));
  return Math.max(far, (4 * how.value.resolution_nm) / 1e6);
}

const WORST: RingPoint['state'][] = ['questioned', 'waiting', 'saved'];

function ringPoint(slot: Slot): RingPoint {
  const here = readingsAt(shownHere.value, slot);
  const nm = meanAt(shownHere.value, slot);
  return {
    circle: drawnCircle(slot),
    point: slot.point,
    angle_deg: angleOfPoint(slot.point, spread.value),
    value_mm: nm === null ? null : nm / 1e6,
    state: stateOf(here),
  };
}

const stateOf = (here: readonly Shown[]): RingPoint['state'] =>
  WORST.find((state) => here.some((one) => one.state === state)) ?? 'empty';
