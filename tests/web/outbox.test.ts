import { beforeEach, describe, expect, it } from 'vitest';
import { Refused, type Sent, Unreachable } from '../../web/src/api/client';
import { Outbox } from '../../web/src/api/outbox';

/** A shop that stores by id, so that what comes twice is there once; it can be away, or lose its answers. */
class ShopOfTest {
  stored = new Map<string, unknown>();
  order: string[] = [];
  arrivals = 0;
  away = false;
  losesAnswers = false;
  refuses: ((body: { id: string; confirmed?: boolean }) => Refused | null) | null = null;

  send = async (sent: Sent): Promise<unknown> => {
    if (this.away) throw new Unreachable('away');
    const body = sent.body as { id: string; confirmed?: boolean };
    this.arrivals += 1;
    const refusal = this.refuses?.(body);
    if (refusal) throw refusal;
    if (!this.stored.has(body.id)) this.order.push(body.id);
    this.stored.set(body.id, body);
    if (this.losesAnswers) throw new Unreachable('the answer got lost');
    return body;
  };
}

let shop: ShopOfTest;
let planned: { work: () => void; ms: number }[];
const open = () =>
  new Outbox({
    storage: localStorage,
    send: (sent) => shop.send(sent),
    later: (work, ms) => planned.push({ work, ms }),
    now: () => 0,
  });
const enter = (outbox: Outbox, id: string) => outbox.put('reading', 'job', 'post', '/jobs/job/readings', {}, { id });
const retry = async (outbox: Outbox) => {
  const due = planned.splice(0);
  for (const { work } of due) work();
  await outbox.flush();
};

beforeEach(() => {
  localStorage.clear();
  shop = new ShopOfTest();
  planned = [];
});

describe('the outbox', () => {
  it('keeps what is entered without a connection, and sends it in order, once each, when there is one', async () => {
    const outbox = open();
    shop.away = true;
    for (const id of ['a', 'b', 'c']) enter(outbox, id);
    await outbox.flush();
    expect(outbox.waiting.value).toHaveLength(3);
    expect(outbox.reached.value).toBe(false);
    shop.away = false;
    await retry(outbox);
    expect(shop.order).toEqual(['a', 'b', 'c']);
    expect(shop.arrivals).toBe(3);
    expect(outbox.entries.value).toEqual([]);
    expect(outbox.reached.value).toBe(true);
    expect(localStorage).toHaveLength(0);
  });

  it('survives the page: another one sends what the first could not', async () => {
    shop.away = true;
    const first = open();
    enter(first, 'a');
    await first.flush();
    shop.away = false;
    const second = open();
    expect(second.waiting.value).toHaveLength(1);
    await second.flush();
    expect([...shop.stored.keys()]).toEqual(['a']);
  });

  it('sends again when the answer got lost, under the same id', async () => {
    const outbox = open();
    shop.losesAnswers = true;
    enter(outbox, 'a');
    await outbox.flush();
    expect(outbox.waiting.value).toHaveLength(1);
    shop.losesAnswers = false;
    await retry(outbox);
    expect(shop.arrivals).toBe(2);
    expect(shop.order).toEqual(['a']);
  });

  it('keeps a doubtful reading until it is confirmed, and lets the others pass meanwhile', async () => {
    const outbox = open();
    shop.refuses = (body) =>
      body.id === 'a' && !body.confirmed
        ? new Refused(422, { code: 'doubtful_reading', field: 'text', message: 'Is it?', doubts: [] })
        : null;
    const doubtful = enter(outbox, 'a');
    enter(outbox, 'b');
    await outbox.flush();
    expect(shop.order).toEqual(['b']);
    expect(outbox.questioned.value.map((entry) => entry.id)).toEqual([doubtful.id]);
    outbox.again(doubtful.id, { id: 'a', confirmed: true });
    await outbox.flush();
    expect(shop.order).toEqual(['b', 'a']);
    expect(outbox.entries.value).toEqual([]);
  });

  it('holds what the shop refuses until a person puts it aside, and never drops what waits', async () => {
    const outbox = open();
    shop.refuses = () => new Refused(422, { code: 'not_a_length', field: 'text', message: 'No length' });
    const entry = enter(outbox, 'a');
    outbox.drop(entry.id);
    expect(outbox.entries.value).toHaveLength(1);
    await outbox.flush();
    expect(outbox.refused.value[0]?.refusal?.message).toBe('No length');
    outbox.drop(entry.id);
    expect(outbox.entries.value).toEqual([]);
  });

  it('waits and says why when the shop answers but cannot store', async () => {
    const outbox = open();
    shop.refuses = () => new Refused(503, { code: 'store_full', field: '', message: 'The disk is full' });
    enter(outbox, 'a');
    await outbox.flush();
    expect(outbox.waiting.value).toHaveLength(1);
    expect(outbox.trouble.value).toBe('The disk is full');
  });

  it('tries again at growing intervals, never slower than every eight seconds', async () => {
    const outbox = open();
    shop.away = true;
    enter(outbox, 'a');
    await outbox.flush();
    const waits: number[] = [];
    for (let i = 0; i < 7; ++i) {
      waits.push(planned[0]?.ms ?? 0);
      await retry(outbox);
    }
    expect(waits).toEqual([500, 1000, 2000, 4000, 8000, 8000, 8000]);
  });

  it('leaves alone what is not its own in the storage, and what it cannot read', () => {
    localStorage.setItem('other', '1');
    localStorage.setItem('brakewright/outbox/x', '{torn');
    expect(open().entries.value).toEqual([]);
    expect(localStorage.getItem('other')).toBe('1');
  });

  it('keeps what is not for whoever is here now, sends the rest past it, and sends it when they are back', async () => {
    let here = 'bo';
    const outbox = new Outbox({
      storage: localStorage,
      send: (sent) => shop.send(sent),
      later: (work, ms) => planned.push({ work, ms }),
      now: () => 0,
      may: (entry) => entry.sent.query?.by_person_id === here,
    });
    const put = (id: string, by_person_id: string) =>
      outbox.put('reading', 'job', 'post', '/jobs/job/readings', { by_person_id }, { id });
    put('a', 'cy');
    put('b', 'bo');
    await outbox.flush();
    expect(shop.order).toEqual(['b']);
    expect(outbox.waiting.value).toHaveLength(1);
    here = 'cy';
    await outbox.flush();
    expect(shop.order).toEqual(['b', 'a']);
    expect(localStorage).toHaveLength(0);
  });

  it('keeps an entry waiting when nobody is signed in any more, and plans no retry of its own', async () => {
    const outbox = open();
    shop.refuses = () => new Refused(401, { code: 'not_signed_in', field: '', message: 'come in first' });
    enter(outbox, 'a');
    await outbox.flush();
    expect(outbox.waiting.value).toHaveLength(1);
    expect(outbox.refused.value).toEqual([]);
    expect(planned).toEqual([]);
    shop.refuses = null;
    await outbox.flush();
    expect(shop.order).toEqual(['a']);
  });
});
