import type { BenchStage, Instrument, MeasuringPlan, Quantity } from '../api/schema';

/** What is gone round together, as one tab of the screen. */
export type TabName =
  | 'thickness'
  | 'runout_outboard'
  | 'runout_inboard'
  | 'scoring'
  | 'cheek'
  | 'bore'
  | 'hat'
  | 'roughness';

/** One place that wants a reading. */
export interface Slot {
  quantity: Quantity;
  circle: number;
  point: number;
}

export interface Tab {
  name: TabName;
  quantities: Quantity[];
  /** Read at every point of the plan, or once each. */
  round: boolean;
  kind: Instrument['kind'];
}

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

/** Before the cut there is no finish to judge; after it bore and hat are what they were. */
const LEFT_OUT: Record<BenchStage, readonly TabName[]> = { before: ['roughness'], after: ['scoring', 'bore', 'hat'] };

/** A solid rotor has no vent slot to measure a cheek to. */
export const tabsOf = (stage: BenchStage, vented = true): Tab[] =>
  TABS.filter((tab) => !LEFT_OUT[stage].includes(tab.name) && (vented || tab.name !== 'cheek'));

export function slotsOf(tab: Tab, plan: Pick<MeasuringPlan, 'points' | 'circles_from_edge_nm'>): Slot[] {
  if (!tab.round) return tab.quantities.map((quantity) => ({ quantity, circle: 0, point: 0 }));
  const circles = tab.name === 'thickness' ? Math.max(plan.circles_from_edge_nm.length, 1) : 1;
  const slots: Slot[] = [];
  for (const quantity of tab.quantities) {
    for (let circle = 0; circle < circles; ++circle) {
      for (let point = 0; point < plan.points; ++point) slots.push({ quantity, circle, point });
    }
  }
  return slots;
}

export const sameSlot = (a: Slot, b: Slot) => a.quantity === b.quantity && a.circle === b.circle && a.point === b.point;

export const angleOfPoint = (point: number, points: number) => (360 * point) / points;

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
