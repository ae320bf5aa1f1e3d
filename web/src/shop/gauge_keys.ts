/** One key as a gauge's cable sent it. */
export interface GaugeKey {
  key: string;
  at_ms: number;
}

/** Keys that came together, ended by a key of the cable's or by a pause. */
export interface Burst {
  text: string;
  keys: string[];
  /** Enter, Tab, or null where only a pause ended it. */
  ended_by: string | null;
  /** Mean time between its keys. */
  gap_ms: number;
}

const PAUSE_MS = 600;
const ENDS = ['Enter', 'Tab'];

/** Splits keys into bursts at Enter, Tab or a pause. A key of more than one letter counts in the keys alone. */
export function burstsOf(keys: readonly GaugeKey[]): Burst[] {
  const bursts: Burst[] = [];
  let open: GaugeKey[] = [];
  const close = (ended_by: string | null) => {
    const [first] = open;
    const last = open.at(-1);
    if (!first || !last) return;
    bursts.push({
      text: open.map((one) => (one.key.length === 1 ? one.key : '')).join(''),
      keys: open.map((one) => one.key),
      ended_by,
      gap_ms: open.length < 2 ? 0 : Math.round((last.at_ms - first.at_ms) / (open.length - 1)),
    });
    open = [];
  };
  for (const one of keys) {
    const before = open.at(-1);
    if (before && one.at_ms - before.at_ms > PAUSE_MS) close(null);
    if (one.key === 'Shift') continue;
    open.push(one);
    if (ENDS.includes(one.key)) close(one.key);
  }
  close(null);
  return bursts;
}

/** How fast no hand types. */
export const CABLE_GAP_MS = 45;
