import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { NewStudyReading, ShopView } from '../../web/src/api/schema';
import { outbox } from '../../web/src/state/connection';
import { doors } from '../../web/src/state/doors';
import { shop, workAs } from '../../web/src/state/shop';
import { here, isTakenBack, openStudy, standing, typed } from '../../web/src/studies/at_study';
import { listenInStudy } from '../../web/src/studies/study_keys';

const PARTS = ['a', 'b', 'c'];
const place = (part: string) => ({ reference_part_id: part, instrument_id: 'mic', repeat: 0 });
const study = (study_id: string) => ({
  study: { id: study_id, closed: false, name: study_id },
  parts: PARTS.map((id) => ({ id, name: id, place_words: '' })),
  progress: [],
});
const nextOf = (study_id: string, person_id: string) => ({
  study_id,
  person_id,
  done: 0,
  of: PARTS.length,
  ahead: PARTS.map(place),
  newest: null,
});

/** What the shop answers to a reading; it waits until it is told. */
let readings: { body: NewStudyReading; accept: () => void; doubt: () => void }[] = [];
/** Requests that wait until they are let through. */
let held: (() => void)[] | null;
let now_ms = 0;
let stop: () => void;

const json = (body: unknown, status = 200) =>
  new Response(JSON.stringify(body), { status, headers: { 'content-type': 'application/json' } });

function answer(address: string, init: { method?: string; body?: string } = {}): Promise<Response> {
  const url = new URL(address, 'http://shop');
  const [, study_id = ''] = /\/studies\/([^/]+)/.exec(url.pathname) ?? [];
  if (url.pathname.endsWith('/next')) {
    const told = () => json(nextOf(study_id, url.searchParams.get('person_id') ?? ''));
    return held ? new Promise((resolve) => held?.push(() => resolve(told()))) : Promise.resolve(told());
  }
  if (init.method === 'POST' && url.pathname.endsWith('/readings')) {
    const body = JSON.parse(init.body ?? '{}') as NewStudyReading;
    return new Promise((resolve) => {
      const stored = { ...body, study_id, value: { text: body.text, unit: 'mm' }, at: '2026-03-02T09:00:00Z' };
      const refusal = { code: 'doubtful_reading', field: 'text', message: 'far off', doubts: [{ message: 'far off' }] };
      readings.push({
        body,
        accept: () => resolve(json(stored)),
        doubt: () => resolve(json({ error: refusal }, 422)),
      });
    });
  }
  return Promise.resolve(json(study(study_id)));
}

const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

beforeEach(async () => {
  vi.stubGlobal('fetch', vi.fn(answer));
  localStorage.clear();
  outbox.reload();
  readings = [];
  held = null;
  document.body.innerHTML = '<input id="reading"><button>b</button><dialog open><input id="pin"></dialog>';
  const ada = { id: 'ada', name: 'Ada', role: 'student', active: true };
  shop.value = { people: [ada], instruments: [], settings: { default_unit: 'mm' } } as unknown as ShopView;
  doors.value = { closed: false, people: [], you: null } as unknown as typeof doors.value;
  workAs('ada');
  await openStudy('other', 'ada');
  await openStudy('s', 'ada');
  const field = () => (standing.value?.asked ? null : document.querySelector<HTMLInputElement>('#reading'));
  stop = listenInStudy({ page: document, field });
});
afterEach(async () => {
  stop();
  while (outbox.waiting.value.length > 0) {
    for (const one of readings) one.accept();
    await settle();
  }
});

function strike(keys: readonly string[], gap_ms: number) {
  for (const key of keys) {
    now_ms += gap_ms;
    const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
    Object.defineProperty(event, 'timeStamp', { value: now_ms });
    (document.activeElement ?? document.body).dispatchEvent(event);
  }
}
const HAND_MS = 120;
const GAUGE_MS = 8;
const taken = () =>
  outbox.entries.value.map((entry) => {
    const { reference_part_id, text } = entry.sent.body as NewStudyReading;
    return `${reference_part_id} ${text}`;
  });

/** Part a is read, and doubted by the shop after so much of part b has been typed. */
async function doubtAfter(keys: readonly string[]) {
  strike([...'20.111', 'Enter'], HAND_MS);
  strike(keys, HAND_MS);
  await settle();
  readings[0]?.doubt();
  await vi.waitFor(() => expect(standing.value?.asked).not.toBeNull());
  document.querySelector<HTMLInputElement>('#reading')?.blur(); // the question stands in its place
}

describe('at the blind place', () => {
  it('what was half typed when a question appeared is taken for no part', async () => {
    await doubtAfter([...'20.5']);
    expect(here.value?.reference_part_id).toBe('a');
    expect(typed.value).toBe('');
    strike(['4', '0', 'Enter'], HAND_MS);
    expect(typed.value).toBe('');
    expect(taken()).toEqual(['a 20.111']);
  });

  it('a gauge waits until the question is answered: its reading is of another part', async () => {
    await doubtAfter([]);
    strike([...'20.540', 'Enter'], GAUGE_MS);
    expect(taken()).toEqual(['a 20.111']);
    strike(['k'], HAND_MS);
    strike([...'20.540', 'Enter'], GAUGE_MS);
    expect(taken()).toEqual(['a 20.111', 'b 20.540']);
    expect(outbox.entries.value[0]?.sent.body).toMatchObject({ confirmed: true });
  });

  it('R opens the doubted place again, and what is typed then is its reading', async () => {
    await doubtAfter([...'20.5']);
    strike(['r', ...'20.112', 'Enter'], HAND_MS);
    expect(taken()).toEqual(['a 20.112']);
  });

  it('a burst takes nothing with it that lay there long before', () => {
    strike(['7'], HAND_MS);
    now_ms += 4000;
    strike([...'20.111', 'Enter'], GAUGE_MS);
    expect(taken()).toEqual(['a 20.111']);
  });

  it('what is typed into a sheet over it is no reading', () => {
    document.querySelector<HTMLInputElement>('#pin')?.focus();
    strike([...'2468', 'Enter'], GAUGE_MS);
    expect(taken()).toEqual([]);
  });

  it('a reading that is taken back is said to be, until the next one is taken', async () => {
    strike([...'20.111', 'Enter'], HAND_MS);
    await settle();
    readings[0]?.accept();
    await vi.waitFor(() => expect(standing.value?.last?.state).toBe('saved'));
    strike(['Backspace'], HAND_MS);
    expect(isTakenBack.value).toBe(true);
    strike([...'20.113', 'Enter'], HAND_MS);
    expect(isTakenBack.value).toBe(false);
  });
});

describe('a study that is opened', () => {
  it('is not overtaken by the answer for another one that was asked for before', async () => {
    held = [];
    const first = openStudy('s1', 'ada');
    const second = openStudy('s2', 'ada');
    for (let k = 0; k < 2; ++k) await settle();
    const [letFirst, letSecond] = held;
    letSecond?.();
    await second;
    letFirst?.();
    await first;
    held = null;
    strike([...'20.111', 'Enter'], HAND_MS);
    expect(outbox.entries.value.at(-1)?.sent.path).toBe('/studies/s2/readings');
  });

  it('takes no answer back to before a reading that the shop has acknowledged meanwhile', async () => {
    held = [];
    const again = openStudy('s', 'ada');
    strike([...'20.111', 'Enter'], HAND_MS);
    await settle();
    readings[0]?.accept();
    await vi.waitFor(() => expect(standing.value?.last?.state).toBe('saved'));
    const cutOff = () => Promise.reject(new TypeError('no network'));
    vi.stubGlobal('fetch', vi.fn(cutOff));
    held[0]?.();
    await expect(again).rejects.toThrow();
    expect(here.value?.reference_part_id).toBe('b');
  });
});
