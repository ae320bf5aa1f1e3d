import { signal } from '@preact/signals';
import { send } from '../api/client';
import { Live } from '../api/live';
import type { Entry } from '../api/outbox';
import { Outbox } from '../api/outbox';
import type { Change, Reading } from '../api/schema';
import { doors, networkIsBack } from './doors';
import { jobFile, refreshAssessment, refreshJob } from './job';
import { loadShop, person } from './shop';

/** The wires between the page and the shop: what goes out waits in the outbox, what comes in is the shop's journal. */
export const heard = signal(true);
/** The last entry of the journal that arrived; screens that list things watch it. */
export const lastChange = signal<Change | null>(null);

/** The practice runs that went on last; another object each time. */
export const practiceNews = signal<{ run_ids: readonly string[] }>({ run_ids: [] });

/** Whose entry it is at this tablet: with closed doors one's own alone, with open ones everybody's. */
export const isMine = (entry: Entry): boolean =>
  doors.value?.closed === false || entry.sent.query?.by_person_id === person.value?.id;

export const outbox = new Outbox({
  may: (entry) => doors.value !== null && (doors.value.closed === false || doors.value.you !== null) && isMine(entry),
  storage: localStorage,
  send,
  later: (work, ms) => setTimeout(work, ms),
  now: () => Date.now(),
});

outbox.onAnswer((entry, answer) => {
  if (entry.about === 'reading' || entry.about === 'withdrawal') holdReading(answer as Reading);
  else if (entry.job_id) void refreshJob().catch(() => undefined);
});

/** Puts a reading into the open job at once, without asking for the whole of it. */
export function holdReading(reading: Reading): void {
  const file = jobFile.value;
  if (!file || file.job.id !== reading.job_id) return;
  const others = file.readings.filter((one) => one.id !== reading.id);
  const readings = [...others, reading].sort((a, b) => (a.received_at < b.received_at ? -1 : 1));
  jobFile.value = { ...file, readings: statesOf(readings) };
  void refreshAssessment();
}

/** A reading counts unless it is withdrawn or one that counts has superseded it. */
function statesOf(readings: Reading[]): Reading[] {
  const superseded = new Set(readings.filter((one) => !one.withdrawn_at).map((one) => one.supersedes_id));
  return readings.map((one) => ({
    ...one,
    state: one.withdrawn_at ? 'withdrawn' : superseded.has(one.id) ? 'superseded' : 'current',
  }));
}

const SETTLE_MS = 60;
let planned = false;

function onChange(change: Change): void {
  lastChange.value = change;
  if (change.job_id ? change.job_id === jobFile.value?.job.id : false) planRefresh(refreshJob);
  // A class that measures or practises at once sends hundreds of these, and nothing of the shop's lists hangs on them.
  if (!change.job_id && !/^(study_reading\.|practice_)/.test(change.kind)) planRefresh(loadShop);
}

function planRefresh(work: () => Promise<unknown>): void {
  if (work === refreshJob) {
    if (planned) return;
    planned = true;
  }
  setTimeout(() => {
    if (work === refreshJob) planned = false;
    work().catch(() => undefined);
  }, SETTLE_MS);
}

const live = new Live({
  open: (url) => new EventSource(url),
  visibility: document,
  onChange,
  onResync: () => {
    planRefresh(loadShop);
    planRefresh(refreshJob);
  },
  onPractice: (run_ids) => {
    practiceNews.value = { run_ids };
  },
  onHeard: (now) => {
    heard.value = now;
    if (now) void outbox.flush();
  },
});

window.addEventListener('online', () => {
  networkIsBack();
  void outbox.flush();
});
window.addEventListener('storage', () => outbox.reload());

export function listen(seq: number): void {
  live.start(seq);
  void outbox.flush();
}

/** Nobody is at the tablet: nothing is heard, and what was entered waits. */
export function listenNoMore(): void {
  live.stop();
}
