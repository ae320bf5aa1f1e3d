import { Ring, type RingPoint } from '../pictures/ring';
import { words } from '../words';
import { active, choose, drawnCircle, how, part, plan, questioned, shownHere, slots, tab } from './at_bench';
import { meanAt, readingsAt, type Shown } from './shown';
import { angleOfPoint, type Slot } from './slots';

/**
 * The face with this tab's readings on it; a tap on a point lights it. `glance` is the same in small, beside the reading
 * on phones, only to be looked at.
 */
export function FaceRing({ glance = false }: { glance?: boolean }) {
  const current = plan.value;
  if (!current) return null;
  const round = tab.value.round;
  const points: RingPoint[] = round ? slots.value.map((slot) => ringPoint(slot, current.points)) : [];
  const values = points.flatMap((point) => (point.value_mm === null ? [] : [point.value_mm]));
  const isThickness = tab.value.name === 'thickness';
  const middle = values.length ? (isThickness ? mean(values) : (Math.min(...values) + Math.max(...values)) / 2) : null;
  const least = points
    .filter((point) => point.value_mm !== null)
    .sort((a, b) => (a.value_mm ?? 0) - (b.value_mm ?? 0))[0];
  const lit = questioned.value?.slot ?? active.value;
  return (
    <div class={glance ? 'glance' : 'measure-ring'} aria-hidden={glance}>
      <Ring
        bare={glance}
        name={words.measure.ring.name(words.measure.tab[tab.value.name])}
        points={points}
        circles={Math.max(...points.map((point) => point.circle + 1), 1)}
        turning={current.turning}
        meaning={isThickness ? words.measure.ring.thickness : words.measure.ring.runout}
        middle_mm={middle}
        span_mm={middle === null ? 0 : spanOf(values, middle)}
        how={how.value}
        active={round && lit ? { circle: drawnCircle(lit), point: lit.point } : null}
        lowest={isThickness && values.length > 1 ? (least ?? null) : null}
        onPick={(point) => {
          const slot = slots.value.find((one) => drawnCircle(one) === point.circle && one.point === point.point);
          if (slot) choose(slot);
        }}
      />
    </div>
  );
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Full colour stands for half the limit to either side, so that a strong colour means out of the ordinary. */
function spanOf(values: readonly number[], middle: number): number {
  const limits = part.value?.limits;
  const limit = tab.value.name === 'thickness' ? limits?.variation : limits?.runout;
  if (limit?.value.nm) return limit.value.nm / 2e6;
  const far = Math.max(...values.map((value) => Math.abs(value - middle)));
  return Math.max(far, (4 * how.value.resolution_nm) / 1e6);
}

const WORST: RingPoint['state'][] = ['questioned', 'waiting', 'saved'];

function ringPoint(slot: Slot, points: number): RingPoint {
  const here = readingsAt(shownHere.value, slot);
  const nm = meanAt(shownHere.value, slot);
  return {
    circle: drawnCircle(slot),
    point: slot.point,
    angle_deg: angleOfPoint(slot.point, points),
    value_mm: nm === null ? null : nm / 1e6,
    state: stateOf(here),
  };
}

const stateOf = (here: readonly Shown[]): RingPoint['state'] =>
  WORST.find((state) => here.some((one) => one.state === state)) ?? 'empty';
