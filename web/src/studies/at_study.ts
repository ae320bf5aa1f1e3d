import { computed, effect, signal } from '@preact/signals';
import { call, signed } from '../api/client';
import { newId } from '../api/ids';
import type { Change, NewStudyReading, StudyNext, StudyReading, StudyView, Unit } from '../api/schema';
import { outbox } from '../state/connection';
import { instrumentOf } from '../state/shop';
import { afterReading, type PlaceKey, READING, standingOf, WITHDRAWAL } from './places';

/** The study that is measured on this tablet, and where its person stands in it. */
export const view = signal<StudyView | null>(null);
const next = signal<StudyNext | null>(null);
/** What is typed and not yet taken. */
export const typed = signal('');
export const standing = computed(() => (next.value ? standingOf(next.value, outbox.entries.value) : null));
/** Where the next reading belongs; a question about an earlier one comes first. */
export const here = computed<PlaceKey | null>(() => standing.value?.asked?.place ?? standing.value?.ahead[0] ?? null);

const chosenUnit = signal<{ instrument_id: string; unit: Unit } | null>(null);
export const unit = computed<Unit>(() => {
  const id = here.value?.instrument_id ?? '';
  if (chosenUnit.value?.instrument_id === id) return chosenUnit.value.unit;
  return instrumentOf(id)?.default_unit ?? 'mm';
});
export function switchUnit(): void {
  chosenUnit.value = { instrument_id: here.value?.instrument_id ?? '', unit: unit.value === 'mm' ? 'in' : 'mm' };
}

/** True from when a reading was taken back until the next one is taken. */
export const isTakenBack = signal(false);

// What was half typed when a question appeared was meant for the next place, and would be taken for the one in question.
const askedId = computed(() => standing.value?.asked?.entry.id ?? null);
effect(() => {
  if (askedId.value) typed.value = '';
});

/** Acknowledgements so far: what the shop told before one of them is out of date after it. */
let heardOf = 0;

outbox.onAnswer((entry, answer) => {
  if (entry.about !== READING && entry.about !== WITHDRAWAL) return;
  heardOf += 1;
  const now = next.value;
  const reading = answer as StudyReading;
  if (!now || reading.study_id !== now.study_id) return;
  if (entry.about === READING) next.value = afterReading(now, reading);
  else {
    next.value = reopened(now, reading);
    void readNext().catch(() => undefined);
  }
});

/** Until the shop has told it in full: the reading that was taken back is the newest no more, and its place is open. */
function reopened(now: StudyNext, reading: StudyReading): StudyNext {
  if (now.newest?.id !== reading.id) return now;
  const names = nameOf(reading);
  const place = { ...reading, ...names };
  const { reference_part_id, instrument_id, repeat, part_name, place_words, instrument_name } = place;
  const again = { reference_part_id, instrument_id, repeat, part_name, place_words, instrument_name };
  return { ...now, newest: null, ahead: [again, ...now.ahead], done: now.done - 1 };
}

export function nameOf(place: PlaceKey): { part_name: string; place_words: string; instrument_name: string } {
  const part = view.value?.parts.find((one) => one.id === place.reference_part_id);
  return {
    part_name: part?.name ?? '',
    place_words: part?.place_words ?? '',
    instrument_name: instrumentOf(place.instrument_id)?.name ?? '',
  };
}

const MOST_TRIES = 8;

/** Who measures in which study here, as it was asked for last; an answer about anybody else comes too late. */
let wanted = { study_id: '', person_id: '' };
const isWanted = (study_id: string, person_id: string) =>
  wanted.study_id === study_id && wanted.person_id === person_id;

/** Asks what is still to be read; an answer that was overtaken by an acknowledgement is asked for again. */
async function readNext(): Promise<void> {
  const { study_id, person_id } = wanted;
  for (let tries = 0; tries < MOST_TRIES; ++tries) {
    const before = heardOf;
    const told = await call('get', '/studies/{study_id}/next', { path: { study_id }, query: { person_id } });
    if (!isWanted(study_id, person_id)) return;
    if (before === heardOf) {
      next.value = told;
      return;
    }
  }
}

export async function openStudy(study_id: string, person_id: string): Promise<void> {
  if (!isWanted(study_id, person_id)) {
    wanted = { study_id, person_id };
    next.value = null;
    view.value = null;
    typed.value = '';
    isTakenBack.value = false;
  }
  const before = heardOf;
  const [told, file] = await Promise.all([
    call('get', '/studies/{study_id}/next', { path: { study_id }, query: { person_id } }),
    call('get', '/studies/{study_id}', { path: { study_id } }),
  ]);
  if (!isWanted(study_id, person_id)) return;
  view.value = file;
  const overtaken = before !== heardOf;
  // What is known here is newer than what was told then, and stands even where it cannot be asked again.
  if (!overtaken || !next.value) next.value = told;
  if (overtaken) await readNext();
}

/** Another tablet of the same person, or the one who closes the study, may have changed what is next here. */
export function concerns(change: Change | null): boolean {
  const now = next.value;
  if (!change || !now) return false;
  if (change.kind.startsWith('study_reading.')) {
    const about = change.detail as { study_id?: string; person_id?: string };
    return about.study_id === now.study_id && about.person_id === now.person_id;
  }
  return change.kind.startsWith('study.') && change.subject_id === now.study_id;
}

/**
 * Takes what was typed, or what a gauge sent, as the reading of the place. False when there is nothing to take, and while
 * an earlier reading is asked about.
 */
export function take(text: string): boolean {
  const now = next.value;
  const place = here.value;
  if (!now || !place || standing.value?.asked || view.value?.study.closed || text.trim() === '') return false;
  const body: NewStudyReading = {
    id: newId(),
    person_id: now.person_id,
    reference_part_id: place.reference_part_id,
    instrument_id: place.instrument_id,
    repeat: place.repeat,
    text: text.trim(),
    default_unit: unit.value,
  };
  const path = `/studies/${now.study_id}/readings`;
  outbox.put(READING, null, 'post', path, signed('post', path), body);
  typed.value = '';
  isTakenBack.value = false;
  return true;
}

/** Kept although it looks wrong: the shop notes that it was asked. */
export function keepAsked(): void {
  const entry = standing.value?.asked?.entry;
  if (entry) outbox.again(entry.id, { ...(entry.sent.body as NewStudyReading), confirmed: true });
}

/** Lets the doubted or refused one go; its place is open again. */
export function retypeAsked(): void {
  const asked = standing.value?.asked;
  if (!asked) return;
  typed.value = '';
  outbox.drop(asked.entry.id);
}

/** Takes the last reading back. False when there is none to take back. */
export function takeBack(): boolean {
  const now = next.value;
  const last = standing.value?.last;
  if (!now || !last || standing.value?.asked || view.value?.study.closed) return false;
  const path = `/studies/${now.study_id}/readings/${last.reading_id}/withdraw`;
  outbox.put(WITHDRAWAL, null, 'post', path, signed('post', path));
  typed.value = '';
  isTakenBack.value = true;
  return true;
}
