import { beforeEach, describe, expect, it } from 'vitest';
import { Refused, type Sent, Unreachable } from '../../web/src/api/client';
import { Outbox } from '../../web/src/api/outbox';
import type { NewStudyReading, StudyNext, StudyPlace, StudyReading } from '../../web/src/api/schema';
import { afterReading, READING, samePlace, standingOf, WITHDRAWAL } from '../../web/src/studies/places';

const place = (part: string, repeat = 0): StudyPlace => ({
  reference_part_id: part,
  part_name: part,
  place_words: 'on the dot',
  instrument_id: 'micrometer',
  instrument_name: 'Micrometer',
  repeat,
});
const order = ['c', 'a', 'b'].map((part) => place(part));
const next = (ahead = order, newest: StudyReading | null = null): StudyNext => ({
  study_id: 's',
  person_id: 'ada',
  done: order.length - ahead.length,
  of: order.length,
  ahead,
  newest,
});
const stored = (body: NewStudyReading): StudyReading => ({
  id: body.id,
  study_id: 's',
  person_id: body.person_id,
  reference_part_id: body.reference_part_id,
  instrument_id: body.instrument_id,
  repeat: body.repeat,
  value: { text: body.text, unit: 'mm', nm: 20_000_000, resolution_nm: 1000 },
  at: '2026-03-02T09:00:00Z',
});
const parts = (places: readonly { reference_part_id: string }[]) => places.map((one) => one.reference_part_id);

let outbox: Outbox;
let away: boolean;
let refuse: Refused | null;
let arrived: Sent[];

beforeEach(() => {
  localStorage.clear();
  away = true;
  refuse = null;
  arrived = [];
  outbox = new Outbox({
    storage: localStorage,
    send: async (sent) => {
      if (away) throw new Unreachable('away');
      if (refuse) throw refuse;
      arrived.push(sent);
      return sent.body;
    },
    later: () => undefined,
    now: () => 0,
  });
});

const read = (part: string, id: string, person_id = 'ada') => {
  const body: NewStudyReading = { ...place(part), id, person_id, text: '20.001', default_unit: 'mm' };
  return outbox.put(READING, null, 'post', '/studies/s/readings', { by_person_id: person_id }, body);
};
const takeBack = (id: string) =>
  outbox.put(WITHDRAWAL, null, 'post', `/studies/s/readings/${id}/withdraw`, { by_person_id: 'ada' });

describe('where somebody stands in a study', () => {
  it('goes on to the next place while a reading still waits in the page', () => {
    read('c', '1');
    const now = standingOf(next(), outbox.entries.value);
    expect(parts(now.ahead)).toEqual(['a', 'b']);
    expect(now).toMatchObject({ done: 1, of: 3, waiting: 1, last: { reading_id: '1', state: 'waiting' } });
  });

  it('goes through the whole order without a network, and sends it in the order of its taking', async () => {
    for (const [i, one] of order.entries()) read(one.reference_part_id, String(i));
    expect(standingOf(next(), outbox.entries.value)).toMatchObject({ ahead: [], done: 3, waiting: 3 });
    await outbox.flush();
    away = false;
    await outbox.flush();
    expect(arrived.map((sent) => (sent.body as NewStudyReading).id)).toEqual(['0', '1', '2']);
  });

  it('does not count twice what the shop has told already while its entry still waits', () => {
    const body = read('c', '1').sent.body as NewStudyReading;
    const told = afterReading(next(), stored(body));
    expect(standingOf(told, outbox.entries.value)).toMatchObject({ done: 1, of: 3 });
  });

  it('opens the place of the last reading again when it is taken back before it was sent', () => {
    read('c', '1');
    takeBack('1');
    const now = standingOf(next(), outbox.entries.value);
    expect(parts(now.ahead)).toEqual(['c', 'a', 'b']);
    expect(now.last).toBeNull();
  });

  it('opens the place of a stored reading at the front when it is taken back', () => {
    const newest = stored({ ...place('c'), id: '1', person_id: 'ada', text: '20', default_unit: 'mm' });
    takeBack('1');
    const now = standingOf(next(order.slice(1), newest), outbox.entries.value);
    expect(parts(now.ahead)).toEqual(['c', 'a', 'b']);
    expect(now).toMatchObject({ done: 0, last: null });
  });

  it('shows the place read again after it was taken back as read, not as open', () => {
    const newest = stored({ ...place('c'), id: '1', person_id: 'ada', text: '20', default_unit: 'mm' });
    takeBack('1');
    read('c', '2');
    const now = standingOf(next(order.slice(1), newest), outbox.entries.value);
    expect(parts(now.ahead)).toEqual(['a', 'b']);
    expect(now.last?.reading_id).toBe('2');
  });

  it('keeps the place of a doubted reading open and asks about it first', async () => {
    read('c', '1');
    read('a', '2');
    await outbox.flush();
    away = false;
    const body = { code: 'doubtful_reading', field: 'text', message: 'far off' };
    refuse = new Refused(409, body as never);
    await outbox.flush();
    const now = standingOf(next(), outbox.entries.value);
    expect(now.asked).toMatchObject({ state: 'questioned', text: '20.001', place: { reference_part_id: 'c' } });
    expect(parts(now.ahead)).toEqual(['c', 'a', 'b']);
    expect(now.done).toBe(0);
  });

  it('takes nothing of another person or another study for its own', () => {
    read('c', '1', 'ben');
    outbox.put(READING, null, 'post', '/studies/t/readings', {}, { ...place('a'), id: '2', person_id: 'ada' });
    expect(standingOf(next(), outbox.entries.value)).toMatchObject({ done: 0, waiting: 0, last: null });
  });
});

describe('a stored reading', () => {
  it('that was withdrawn meanwhile closes no place', () => {
    const reading = stored({ ...place('c'), id: '1', person_id: 'ada', text: '20', default_unit: 'mm' });
    expect(afterReading(next(), { ...reading, withdrawn_at: '2026-03-02T09:01:00Z' })).toEqual(next());
    expect(parts(afterReading(next(), reading).ahead)).toEqual(['a', 'b']);
  });
});

describe('two places', () => {
  it('are the same by part, instrument and round', () => {
    expect(samePlace(place('a', 1), place('a', 1))).toBe(true);
    expect(samePlace(place('a', 1), place('a', 0))).toBe(false);
  });
});
