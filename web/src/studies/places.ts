import type { Entry } from '../api/outbox';
import type { NewStudyReading, StudyNext, StudyPlace, StudyReading } from '../api/schema';

/** Names under which entries of a study lie in the outbox. */
export const READING = 'study_reading';
export const WITHDRAWAL = 'study_withdrawal';

/** A place that the study asks for, whatever it is called. */
export type PlaceKey = Pick<StudyPlace, 'reference_part_id' | 'instrument_id' | 'repeat'>;

/** The reading that was taken last and can be taken back. */
export interface LastTaken {
  reading_id: string;
  place: PlaceKey;
  state: 'saved' | 'waiting';
}

/** A reading that the shop doubts or refused, until its person answers. */
export interface Asked {
  entry: Entry;
  place: PlaceKey;
  text: string;
  state: 'questioned' | 'refused';
}

/** Where somebody stands in a study: what the shop told, and what still lies in this page, in one. */
export interface Standing {
  /** Still to be read, in their order. */
  ahead: PlaceKey[];
  done: number;
  of: number;
  last: LastTaken | null;
  asked: Asked | null;
  /** Readings that the shop has not acknowledged yet. */
  waiting: number;
}

export const samePlace = (a: PlaceKey, b: PlaceKey) =>
  a.reference_part_id === b.reference_part_id && a.instrument_id === b.instrument_id && a.repeat === b.repeat;

const bodyOf = (entry: Entry) => entry.sent.body as NewStudyReading;
const keyOf = (one: PlaceKey): PlaceKey => ({
  reference_part_id: one.reference_part_id,
  instrument_id: one.instrument_id,
  repeat: one.repeat,
});
const withdrawnBy = (entry: Entry) => /\/readings\/([^/]+)\/withdraw$/.exec(entry.sent.path)?.[1] ?? '';

/** The outbox's entries of one person in one study. */
export function entriesOf(entries: readonly Entry[], study_id: string, person_id: string): Entry[] {
  return entries.filter((entry) => {
    if (entry.about !== READING && entry.about !== WITHDRAWAL) return false;
    if (!entry.sent.path.startsWith(`/studies/${study_id}/`)) return false;
    return entry.about === READING
      ? bodyOf(entry).person_id === person_id
      : entry.sent.query?.by_person_id === person_id;
  });
}

/**
 * A place whose reading waits here is read already; one whose reading was doubted, refused or is being taken back is
 * open, and comes first.
 */
export function standingOf(next: StudyNext, all: readonly Entry[]): Standing {
  const entries = entriesOf(all, next.study_id, next.person_id);
  const withdrawn = new Set(
    entries.filter((one) => one.about === WITHDRAWAL && one.state === 'waiting').map(withdrawnBy),
  );
  const readings = entries.filter((one) => one.about === READING && !withdrawn.has(bodyOf(one).id));
  const pending = readings.filter((one) => one.state === 'waiting');
  const ahead = next.ahead.map(keyOf).filter((place) => !pending.some((one) => samePlace(bodyOf(one), place)));
  const newest = next.newest ?? null;
  const takenBack = newest !== null && withdrawn.has(newest.id);
  if (newest && takenBack && ![...ahead, ...pending.map(bodyOf)].some((place) => samePlace(place, newest))) {
    ahead.unshift(keyOf(newest));
  }
  const questioned = readings.find((one) => one.state !== 'waiting');
  const lastPending = pending.at(-1);
  const saved = newest && !takenBack ? newest : null;
  return {
    ahead,
    done: next.of - ahead.length,
    of: next.of,
    last: lastPending ? taken(bodyOf(lastPending), 'waiting') : saved ? taken(saved, 'saved') : null,
    asked: questioned ? asked(questioned) : null,
    waiting: entries.filter((one) => one.state === 'waiting').length,
  };
}

const taken = (one: PlaceKey & { id: string }, state: LastTaken['state']): LastTaken => ({
  reading_id: one.id,
  place: keyOf(one),
  state,
});

function asked(entry: Entry): Asked {
  const body = bodyOf(entry);
  const state = entry.state === 'questioned' ? 'questioned' : 'refused';
  return { entry, place: keyOf(body), text: body.text, state };
}

/** What the shop would say next, after it has told that it stored this reading. */
export function afterReading(next: StudyNext, reading: StudyReading): StudyNext {
  const ofHere = reading.study_id === next.study_id && reading.person_id === next.person_id;
  if (!ofHere || reading.withdrawn_at) return next;
  const ahead = next.ahead.filter((place) => !samePlace(place, reading));
  return { ...next, ahead, done: next.of - ahead.length, newest: reading };
}
