import { computed, signal } from '@preact/signals';
import { signed } from '../api/client';
import { newId } from '../api/ids';
import type { Instrument, MeasuringPlan, NewReading, Part, Stage, Unit } from '../api/schema';
import { ofThisFitting } from '../refit/bench';
import { place } from '../route/router';
import { isDrum } from '../show/part_kind';
import { outbox } from '../state/connection';
import { jobFile, parts, planOf, sealed } from '../state/job';
import { instrumentOf, instruments, person, shop } from '../state/shop';
import { counts, isRead, readingsAt, type Shown, shownReadings } from './shown';
import {
  isOnCar,
  isSize,
  nextWanted,
  type Slot,
  sameSlot,
  slotsOf,
  spreadOf,
  stepFrom,
  type Tab,
  tabsOf,
  tabsOnCar,
} from './slots';

/**
 * What the measuring screen is doing: which part, which tab, which point is lit, what has been typed so far, and what is
 * asked. Which part and tab stand in the address, so that a reload and the way back find them again.
 */
const STAGES: Record<string, Stage> = { after: 'after', car: 'on_car', refit: 'refit' };
export const stage = computed<Stage>(() => STAGES[place.value.path.split('/').at(-1) ?? ''] ?? 'before');
export const part = computed<Part | null>(
  () => parts.value.find((one) => one.side === place.value.query.part) ?? parts.value[0] ?? null,
);
export const tab = computed<Tab>(() => {
  if (isOnCar(stage.value)) return tabOnCar();
  const tabs = tabsOf(stage.value, part.value ?? undefined);
  const first = tabs[0] as Tab;
  return tabs.find((one) => one.name === place.value.query.of) ?? first;
});

/** By how many studs the part is turned, as the address says. */
export const turnedHere = computed(() => Math.max(0, Math.trunc(Number(place.value.query.turned)) || 0));

function tabOnCar(): Tab {
  const tabs = tabsOnCar([turnedHere.value]);
  const { of } = place.value.query;
  const wanted = of || (stage.value === 'refit' ? 'on_hub' : 'bearing_play');
  return (
    tabs.find((one) => one.name === wanted && (one.turned ?? turnedHere.value) === turnedHere.value) ?? (tabs[0] as Tab)
  );
}

/** The plan of this stage; back on the car it is gone round as it was before, as the shop does where nothing else is said. */
export const plan = computed<MeasuringPlan | null>(() => {
  const here = part.value;
  if (!here) return null;
  const own = planOf(here, stage.value);
  if (own || stage.value !== 'refit') return own;
  const like = planOf(here, 'on_car') ?? planOf(here, 'before');
  return like && { ...like, stage: 'refit', circles_from_edge_nm: like.circles_from_edge_nm.slice(0, 1) };
});

/** A drum, gone over at the bench. */
const bored = computed(() => isDrum(part.value) && !isOnCar(stage.value));

export const slots = computed(() => (plan.value ? slotsOf(tab.value, plan.value, bored.value) : []));
/** How the points of this tab lie. */
export const spread = computed(() => spreadOf(tab.value, plan.value?.points ?? 1, bored.value));
/** On how many circles this tab is read; the rounds of a part that is turned on its hub are one each. */
export const circles = computed(() =>
  tab.value.turned === undefined ? slots.value.reduce((most, one) => Math.max(most, one.circle + 1), 1) : 1,
);
/** Which circle of the drawing a slot lies on. */
export const drawnCircle = (slot: Slot): number => (tab.value.turned === undefined ? slot.circle : 0);
const onRecord = computed<Shown[]>(() => {
  const file = jobFile.value;
  const here = part.value;
  return file && here ? shownReadings(file, outbox.entries.value, here.id, stage.value) : [];
});
/** What counts here; of a part back on the car, what was read since it went on. */
export const shown = computed<Shown[]>(() => {
  const file = jobFile.value;
  const here = part.value;
  return file && here && stage.value === 'refit' ? ofThisFitting(file, here, onRecord.value) : onRecord.value;
});
export const shownHere = computed(() =>
  shown.value.filter(
    ({ slot }) =>
      tab.value.quantities.includes(slot.quantity) &&
      (tab.value.turned === undefined || slot.circle === tab.value.turned),
  ),
);

// ---- which instrument and unit --------------------------------------------------------------------------------------

/** Chosen on this tablet for what the plan does not name: grooves, bore, hat, roughness. */
const chosenInstruments = signal<Partial<Record<string, string>>>({});

export const instrument = computed<Instrument | null>(() => {
  const name = tab.value.name;
  if (isSize(tab.value)) return instrumentOf(plan.value?.thickness_instrument_id);
  if (tab.value.round) return instrumentOf(plan.value?.runout_instrument_id);
  const fits = instruments.value.filter((one) => one.kind === tab.value.kind);
  return instrumentOf(chosenInstruments.value[name]) ?? fits[0] ?? null;
});

export function chooseInstrument(name: string, id: string): void {
  chosenInstruments.value = { ...chosenInstruments.value, [name]: id };
}

const switchedUnit = signal<{ instrument: string | null; unit: Unit } | null>(null);

export const unit = computed<Unit>(() => {
  const switched = switchedUnit.value;
  if (switched && switched.instrument === (instrument.value?.id ?? null)) return switched.unit;
  return instrument.value?.default_unit ?? shop.value?.settings.default_unit ?? 'mm';
});

export function switchUnit(): void {
  switchedUnit.value = { instrument: instrument.value?.id ?? null, unit: unit.value === 'mm' ? 'in' : 'mm' };
}

/** Numbers of this tab are shown as its instrument shows them. */
export const how = computed(() => ({
  unit: unit.value,
  resolution_nm: instrument.value?.resolution_nm ?? (unit.value === 'mm' ? 1000 : 2540),
}));

// ---- which point ----------------------------------------------------------------------------------------------------

const chosen = signal<Slot | null>(null);
const lastTaken = signal<Slot | null>(null);
/** With a reading at the chosen point: does the next one replace it, or stand beside it. */
export const replacing = signal(true);

export const active = computed<Slot | null>(() => {
  if (sealed.value) return null;
  const picked = chosen.value;
  if (picked && slots.value.some((slot) => sameSlot(slot, picked))) return picked;
  return nextWanted(slots.value, (slot) => isRead(shownHere.value, slot), lastTaken.value);
});

export const atActive = computed(() => (active.value ? readingsAt(shownHere.value, active.value) : []));
export const complete = computed(
  () => slots.value.length > 0 && slots.value.every((slot) => isRead(shownHere.value, slot)),
);

export function choose(slot: Slot | null): void {
  chosen.value = slot;
  replacing.value = true;
}

export function moveBy(by: number): void {
  choose(stepFrom(slots.value, active.value, by));
}

/** The point at the angle that the address names, as where a verdict asks for more readings there. */
function namedSlot(): Slot | null {
  const angle_deg = Number(place.value.query.angle);
  const { points, over_deg } = spread.value;
  if (!place.value.query.angle || !Number.isFinite(angle_deg) || !plan.value) return null;
  const point = Math.round((angle_deg * points) / over_deg) % points;
  return slots.value.find((slot) => slot.point === point) ?? null;
}

/**
 * Another part, tab or stage begins afresh: before it is painted, or a quick hand's first digits would go with what was
 * there before. A point that the address names is read once more beside what it has.
 */
export function beginAfresh(): void {
  chosen.value = namedSlot();
  replacing.value = chosen.value === null;
  lastTaken.value = null;
  typed.value = '';
  lastShownId.value = null;
}

// ---- what is typed --------------------------------------------------------------------------------------------------

export const typed = signal('');
/** The reading that was taken last on this tablet. */
export const lastShownId = signal<string | null>(null);
export const lastShown = computed(() => shownHere.value.find((one) => one.id === lastShownId.value) ?? null);

const MICROMETRES = 'um';
const HAS_UNIT = /[a-zµμ"'’”″]/i;

/** Roughness is typed in micrometres, everything else in the unit of the keypad. */
export const unitWord = computed(() => (tab.value.name === 'roughness' ? 'µm' : unit.value));
const withUnit = (text: string) =>
  tab.value.name === 'roughness' && !HAS_UNIT.test(text) ? `${text} ${MICROMETRES}` : text;

/** What was read here before the part was taken off and went on again: the new reading takes its place. */
const formerAt = (slot: Slot): Shown | undefined =>
  readingsAt(shownHere.value, slot).some(counts) ? undefined : readingsAt(onRecord.value, slot).filter(counts).at(-1);

/** Takes what was typed, or what a gauge sent, as the reading of the lit point. False when there is none. */
export function take(text: string): boolean {
  const file = jobFile.value;
  const here = part.value;
  const slot = active.value;
  if (!file || !here || !slot || text.trim() === '') return false;
  const replaced = (replacing.value ? atActive.value.filter(counts).at(-1) : undefined) ?? formerAt(slot);
  dropQuestions(slot);
  const body: NewReading = {
    id: newId(),
    part_id: here.id,
    stage: stage.value,
    quantity: slot.quantity,
    circle: slot.circle,
    point: slot.point,
    text: withUnit(text.trim()),
    default_unit: unit.value,
    instrument_id: instrument.value?.id ?? null,
    supersedes_id: replaced?.id ?? null,
    confirmed: false,
    taken_at: new Date().toISOString(),
  };
  const path = `/jobs/${file.job.id}/readings`;
  outbox.put('reading', file.job.id, 'post', path, signed('post', path), body);
  typed.value = '';
  lastShownId.value = body.id;
  lastTaken.value = slot;
  chosen.value = null;
  replacing.value = true;
  return true;
}

// ---- what is asked --------------------------------------------------------------------------------------------------

/** Readings that the shop doubts or could not read, and that nobody has answered for yet. */
export const allQuestioned = computed(() => shown.value.filter((one) => !counts(one)));
/** The one that is asked about now: the last one taken, or one that was called up. */
export const questioned = computed<Shown | null>(
  () => allQuestioned.value.find((one) => one.id === lastShownId.value) ?? null,
);

export function callUp(one: Shown): void {
  typed.value = '';
  lastShownId.value = one.id;
}

/** Kept although it looks wrong: the shop notes that it was asked. */
export function keepQuestioned(one: Shown): void {
  const body = one.entry?.sent.body as NewReading | undefined;
  if (one.entry && body) outbox.again(one.entry.id, { ...body, confirmed: true });
}

/** Lets the doubtful value go, and lights its point again. */
export function retypeQuestioned(one: Shown): void {
  if (one.entry) outbox.drop(one.entry.id);
  typed.value = '';
  if (tab.value.quantities.includes(one.slot.quantity)) choose(one.slot);
}

/** Sends what it would be if the doubt is right. */
export function takeSuggestion(one: Shown, text: string, suggestedUnit: Unit): void {
  const body = one.entry?.sent.body as NewReading | undefined;
  if (one.entry && body) {
    outbox.again(one.entry.id, { ...body, text: /[a-z"]/i.test(text) ? text : `${text} ${suggestedUnit}` });
  }
}

function dropQuestions(slot: Slot): void {
  for (const one of readingsAt(shownHere.value, slot)) {
    if (!counts(one) && one.entry) outbox.drop(one.entry.id);
  }
}

// ---- undo -----------------------------------------------------------------------------------------------------------

/** The last reading here that is one's own to take back. */
export const undoable = computed(() => shownHere.value.filter((one) => one.by_person_id === person.value?.id).at(-1));

export function undo(): void {
  const one = undoable.value;
  const file = jobFile.value;
  if (!one || !file || sealed.value) return;
  if (!counts(one)) {
    retypeQuestioned(one);
    return;
  }
  const path = `/jobs/${file.job.id}/readings/${one.id}/withdraw`;
  outbox.put('withdrawal', file.job.id, 'post', path, signed('post', path));
  lastTaken.value = null;
  lastShownId.value = null;
  choose(one.slot);
}
