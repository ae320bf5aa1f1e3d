import type { Entry } from '../api/outbox';
import type { Doubt, JobFile, NewReading, Quantity, Reading, Stage, TypedLength } from '../api/schema';
import { typedLength } from '../show/length';
import { type Slot, sameSlot } from './slots';

/** A reading as the screen shows it, whether the shop has it already or it still lies in this page. */
export interface Shown {
  id: string;
  slot: Slot;
  /** "24.013 mm", or as typed while the shop has not read it. */
  text: string;
  /** Known once the shop has read it. */
  typed: TypedLength | null;
  state: 'saved' | 'waiting' | 'questioned' | 'refused';
  by_person_id: string | null;
  taken_at: string;
  /** By the shop's clock; absent while it lies in this page. */
  received_at?: string;
  instrument_id: string | null;
  /** The outbox's entry, while it lies there. */
  entry: Entry | null;
}

export const doubtsOf = (entry: Entry | null): Doubt[] => entry?.refusal?.doubts ?? [];

const isReading = (entry: Entry) => entry.about === 'reading';
const bodyOf = (entry: Entry) => entry.sent.body as NewReading;
const slotOf = (one: { quantity: Quantity; circle: number; point: number }): Slot => ({
  quantity: one.quantity,
  circle: one.circle,
  point: one.point,
});

/**
 * What counts now of one part at one stage: the shop's current readings, less those that this page has already withdrawn
 * or superseded, and the readings that wait in this page. In the order of their taking.
 */
export function shownReadings(file: JobFile, entries: readonly Entry[], part_id: string, stage: Stage): Shown[] {
  const here = entries.filter((entry) => entry.job_id === file.job.id);
  const withdrawn = new Set(here.filter((entry) => entry.about === 'withdrawal').map(withdrawnBy));
  const waiting = here.filter(
    (entry) => isReading(entry) && bodyOf(entry).part_id === part_id && bodyOf(entry).stage === stage,
  );
  const known = new Set(file.readings.map((reading) => reading.id));
  const superseded = new Set(waiting.filter((entry) => entry.state === 'waiting').map((e) => bodyOf(e).supersedes_id));
  const saved = file.readings
    .filter((one) => one.part_id === part_id && one.stage === stage && one.state === 'current')
    .filter((one) => !withdrawn.has(one.id) && !superseded.has(one.id))
    .map(fromShop);
  const unsent = waiting
    .filter((entry) => !withdrawn.has(bodyOf(entry).id) && !known.has(bodyOf(entry).id))
    .map(fromPage);
  return [...saved, ...unsent].sort((a, b) => (a.taken_at < b.taken_at ? -1 : a.taken_at > b.taken_at ? 1 : 0));
}

/** The id of the reading in the address of a withdrawal. */
function withdrawnBy(entry: Entry): string | undefined {
  return /\/readings\/([^/]+)\/withdraw$/.exec(entry.sent.path)?.[1];
}

function fromShop(reading: Reading): Shown {
  return {
    id: reading.id,
    slot: slotOf(reading),
    text: typedLength(reading.value),
    typed: reading.value,
    state: 'saved',
    by_person_id: reading.by_person_id,
    taken_at: reading.taken_at,
    received_at: reading.received_at,
    instrument_id: reading.instrument_id ?? null,
    entry: null,
  };
}

function fromPage(entry: Entry): Shown {
  const body = bodyOf(entry);
  const by = entry.sent.query?.by_person_id;
  return {
    id: body.id,
    slot: slotOf(body),
    text: `${body.text} ${/[a-zµ"]/i.test(body.text) ? '' : body.default_unit}`.trim(),
    typed: null,
    state: entry.state,
    by_person_id: typeof by === 'string' ? by : null,
    taken_at: body.taken_at ?? new Date(entry.made_at).toISOString(),
    instrument_id: body.instrument_id ?? null,
    entry,
  };
}

export const readingsAt = (shown: readonly Shown[], slot: Slot) => shown.filter((one) => sameSlot(one.slot, slot));

/** A questioned or refused reading is not one yet. */
export const counts = (one: Shown) => one.state === 'saved' || one.state === 'waiting';

export const isRead = (shown: readonly Shown[], slot: Slot) => readingsAt(shown, slot).some(counts);

/** Mean of the readings of a slot that the shop has read, in nanometres. */
export function meanAt(shown: readonly Shown[], slot: Slot): number | null {
  const values = readingsAt(shown, slot).flatMap((one) => (one.typed?.nm === undefined ? [] : [one.typed.nm]));
  return values.length ? values.reduce((sum, nm) => sum + nm, 0) / values.length : null;
}
