import type { BenchStage, Instrument, MeasuringPlan, Part, Quantity, Stage } from '../api/schema';
import { isDrum } from '../show/part_kind';

/** What is gone round together, as one tab of the screen. */
export type TabName =
  | 'thickness'
  | 'diameter'
  | 'runout_outboard'
  | 'runout_inboard'
  | 'scoring'
  | 'cheek'
  | 'bore'
  | 'hat'
  | 'roughness'
  | 'bearing_play'
  | 'hub_runout'
  | 'on_hub';

/** One place that wants a reading. */
export interface Slot {
  quantity: Quantity;
  circle: number;
  point: number;
}

export interface Tab {
  name: TabName;
  quantities: Quantity[];
  /** The screen does not wait for it. */
  optional?: boolean;
  /** Read at every point of the plan, or once each. */
  round: boolean;
  kind: Instrument['kind'];
  /** By how many studs the part is turned on its hub, where that is what tells its rounds apart. */
  turned?: number;
}

export const isOnCar = (stage: Stage): stage is 'on_car' | 'refit' => stage === 'on_car' || stage === 'refit';

export const TABS: readonly Tab[] = [
  { name: 'thickness', quantities: ['thickness'], round: true, kind: 'micrometer' },
  { name: 'runout_outboard', quantities: ['runout_outboard'], round: true, kind: 'dial_indicator' },
  { name: 'runout_inboard', quantities: ['runout_inboard'], round: true, kind: 'dial_indicator' },
  {
    name: 'roughness',
    quantities: ['roughness_outboard', 'roughness_inboard'],
    round: false,
    kind: 'roughness_tester',
  },
  { name: 'scoring', quantities: ['scoring_outboard', 'scoring_inboard'], round: false, kind: 'depth_gauge' },
  { name: 'cheek', quantities: ['cheek_outboard', 'cheek_inboard'], round: false, kind: 'caliper' },
  { name: 'bore', quantities: ['bore'], round: false, kind: 'caliper' },
  { name: 'hat', quantities: ['hat_height'], round: false, kind: 'caliper' },
];

/** A drum has one surface, which stands as the outboard one; its runout inside is read on the lathe if at all. */
const OF_A_DRUM: readonly Tab[] = [
  { name: 'diameter', quantities: ['diameter'], round: true, kind: 'drum_gauge' },
  { name: 'runout_outboard', quantities: ['runout_outboard'], round: true, kind: 'dial_indicator', optional: true },
  { name: 'roughness', quantities: ['roughness_outboard'], round: false, kind: 'roughness_tester' },
  { name: 'scoring', quantities: ['scoring_outboard'], round: false, kind: 'depth_gauge' },
  { name: 'bore', quantities: ['bore'], round: false, kind: 'caliper' },
];

/** Before the cut there is no finish to judge; after it bore and hat are what they were. */
const LEFT_OUT: Record<BenchStage, readonly TabName[]> = { before: ['roughness'], after: ['scoring', 'bore', 'hat'] };

/** A solid rotor has no vent slot to measure a cheek to. */
export const tabsOf = (
  stage: BenchStage,
  { kind, vented = true }: Partial<Pick<Part, 'kind' | 'vented'>> = {},
): Tab[] =>
  (isDrum({ kind: kind ?? null }) ? OF_A_DRUM : TABS).filter(
    (tab) => !LEFT_OUT[stage].includes(tab.name) && (vented || tab.name !== 'cheek'),
  );

/** On the car: the play of the bearing, the part on its hub as it came, the bare hub, and the part turned by studs. */
export function tabsOnCar(turns: readonly number[]): Tab[] {
  const onHub = (turned: number): Tab => ({
    name: 'on_hub',
    quantities: ['runout_outboard'],
    round: true,
    kind: 'dial_indicator',
    turned,
  });
  return [
    { name: 'bearing_play', quantities: ['bearing_play'], round: false, kind: 'dial_indicator' },
    onHub(0),
    { name: 'hub_runout', quantities: ['hub_runout'], round: true, kind: 'dial_indicator' },
    ...turns.filter((turned) => turned !== 0).map(onHub),
  ];
}

/** Whether the tab reads how thick the rotor, or how wide the drum is. */
export const isSize = (tab: Pick<Tab, 'name'>): boolean => tab.name === 'thickness' || tab.name === 'diameter';

/** How the points of a tab lie, evenly from the index mark. */
export interface Spread {
  points: number;
  over_deg: number;
}

const MOST_POINTS = 24;

/**
 * A diameter is the same half a turn on: its points cover half a turn, and an indicator in the drum goes the whole turn at
 * the same steps, at most 24 of them.
 */
export function spreadOf(tab: Pick<Tab, 'name'>, points: number, drum: boolean): Spread {
  if (tab.name === 'diameter') return { points, over_deg: 180 };
  return { points: drum ? Math.min(2 * points, MOST_POINTS) : points, over_deg: 360 };
}

export function slotsOf(tab: Tab, plan: Pick<MeasuringPlan, 'points' | 'circles_from_edge_nm'>, drum = false): Slot[] {
  if (!tab.round) return tab.quantities.map((quantity) => ({ quantity, circle: 0, point: 0 }));
  const { points } = spreadOf(tab, plan.points, drum);
  if (tab.turned !== undefined) {
    const circle = tab.turned;
    return Array.from({ length: points }, (_, point) => ({ quantity: 'runout_outboard', circle, point }));
  }
  const circles = isSize(tab) ? Math.max(plan.circles_from_edge_nm.length, 1) : 1;
  const slots: Slot[] = [];
  for (const quantity of tab.quantities) {
    for (let circle = 0; circle < circles; ++circle) {
      for (let point = 0; point < points; ++point) slots.push({ quantity, circle, point });
    }
  }
  return slots;
}

export const sameSlot = (a: Slot, b: Slot) => a.quantity === b.quantity && a.circle === b.circle && a.point === b.point;

export const angleOfPoint = (point: number, { points, over_deg }: Spread) => (over_deg * point) / points;

/** The first slot that wants a reading, looking onward from `after` and round; null when none does. */
export function nextWanted(slots: readonly Slot[], isRead: (slot: Slot) => boolean, after: Slot | null): Slot | null {
  const start = after ? slots.findIndex((slot) => sameSlot(slot, after)) + 1 : 0;
  for (let i = 0; i < slots.length; ++i) {
    const slot = slots[(start + i) % slots.length];
    if (slot && !isRead(slot)) return slot;
  }
  return null;
}

/** The slot so many steps on, round the list. */
export function stepFrom(slots: readonly Slot[], from: Slot | null, by: number): Slot | null {
  if (slots.length === 0) return null;
  const at = from ? slots.findIndex((slot) => sameSlot(slot, from)) : by > 0 ? -1 : 0;
  return slots[(at + by + slots.length) % slots.length] ?? null;
}
