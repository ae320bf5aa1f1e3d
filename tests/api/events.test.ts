import { get, type IncomingMessage } from 'node:http';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { holdTo } from './contract';
import { openJob, reading, type Scene, setScene } from './scene';
import { freshFolder, type Json, Served } from './shop';

let shop: Served;
let scene: Scene;
let job: Json;
let add: (point: number, text: string) => Promise<Json>;

beforeAll(async () => {
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  job = await openJob(shop, scene, ['left']);
  add = (point, text) =>
    shop.want('POST', `/jobs/${job.job.id}/readings?by_person_id=${scene.by}`, {
      ...reading(scene, job.parts[0].id, point, text),
      confirmed: true,
    });
});
afterAll(async () => {
  await shop.stop();
});

interface Heard {
  readonly id: number;
  readonly name: string;
  readonly data: string;
}

/** A tablet that listens: gives what it hears, one event after another, the greeting left out. */
class Listener {
  readonly heard: Heard[] = [];
  private waiting: (() => void)[] = [];
  private constructor(private readonly response: IncomingMessage) {
    let text = '';
    response.setEncoding('utf8');
    response.on('data', (part: string) => {
      text += part;
      const blocks = text.split('\n\n');
      text = blocks.pop() as string;
      for (const block of blocks) this.take(block);
    });
    response.on('error', () => undefined);
  }

  static open(after: number, headers: Record<string, string> = {}): Promise<Listener> {
    return new Promise((resolve, reject) => {
      get(`${shop.address}/api/v1/events?after=${after}`, { headers, agent: false }, (response) => {
        expect(response.statusCode).toBe(200);
        expect(response.headers['content-type']).toMatch(/^text\/event-stream/);
        resolve(new Listener(response));
      }).on('error', reject);
    });
  }

  private take(block: string) {
    const field = (name: string) =>
      block
        .split('\n')
        .filter((line) => line.startsWith(`${name}:`))
        .map((line) => line.slice(name.length + 1).replace(/^ /, ''))
        .join('\n');
    if (field('data') === '' || field('event') === 'hello') return;
    this.heard.push({ id: Number(field('id')), name: field('event') || 'message', data: field('data') });
    for (const wake of this.waiting.splice(0)) wake();
  }

  /** Waits until what was heard passes `wanted`. */
  async until(wanted: (heard: readonly Heard[]) => boolean, ms = 5000): Promise<void> {
    const end = Date.now() + ms;
    while (!wanted(this.heard)) {
      if (Date.now() > end) throw new Error(`not heard within ${ms} ms: ${JSON.stringify(this.heard).slice(0, 1000)}`);
      await Promise.race([
        new Promise<void>((resolve) => this.waiting.push(resolve)),
        new Promise((resolve) => setTimeout(resolve, 50)),
      ]);
    }
  }

  close() {
    this.response.destroy();
  }
}

const lastSeq = async (): Promise<number> => (await shop.want('GET', '/health')).seq;

describe('events', () => {
  test('tell a second tablet of a reading within a second, as the journal has it', async () => {
    const listener = await Listener.open(await lastSeq());
    const stored = await add(0, '21.501');
    // The second is what people are promised (issue 2), not a benchmark.
    await listener.until((heard) => heard.some(({ data }) => data.includes(stored.id)), 1000);
    const event = listener.heard.find(({ data }) => data.includes(stored.id)) as Heard;
    const change = JSON.parse(event.data);
    holdTo('Change', change);
    expect(change).toMatchObject({ seq: event.id, kind: 'reading.added', subject_id: stored.id, job_id: job.job.id });
    listener.close();
  });

  test('come back from where a tablet left off, each once and in order', async () => {
    const before = await lastSeq();
    for (let k = 0; k < 30; ++k) await add(1, `21.5${10 + k}`);
    const listener = await Listener.open(before);
    await listener.until((heard) => heard.length >= 30);
    const ids = listener.heard.map(({ id }) => id);
    expect(ids).toEqual(Array.from({ length: 30 }, (_, k) => before + 1 + k));
    listener.close();
    const later = await Listener.open(0, { 'last-event-id': String(before + 25) });
    await later.until((heard) => heard.length >= 5);
    expect(later.heard[0]?.id).toBe(before + 26);
    later.close();
  });

  test('reach both of two tablets that write at the same time, and none is lost', async () => {
    const before = await lastSeq();
    const tablets = await Promise.all([Listener.open(before), Listener.open(before)]);
    const write = async (tablet: number) => {
      const ids: string[] = [];
      for (let k = 0; k < 25; ++k) ids.push((await add(2 + tablet, `21.4${10 + k}`)).id);
      return ids;
    };
    const written = (await Promise.all([write(0), write(1)])).flat();
    for (const tablet of tablets) {
      await tablet.until((heard) => heard.length >= 50);
      expect(tablet.heard.map(({ data }) => JSON.parse(data).subject_id).sort()).toEqual([...written].sort());
      tablet.close();
    }
    const { readings } = await shop.want('GET', `/jobs/${job.job.id}`);
    const stored = new Set(readings.map(({ id }: Json) => id));
    expect(written.every((id) => stored.has(id))).toBe(true);
  });

  test('to many tablets do not keep others from being served', async () => {
    const before = await lastSeq();
    const listeners = await Promise.all(Array.from({ length: 40 }, () => Listener.open(before)));
    const stored = await add(4, '21.777');
    await Promise.all(
      listeners.map((tablet) => tablet.until((heard) => heard.some(({ data }) => data.includes(stored.id)))),
    );
    for (const tablet of listeners) tablet.close();
    expect(await shop.want('GET', '/health')).toMatchObject({ store: 'ok' });
  });

  test('after a number that was never given ask the tablet to read anew', async () => {
    const listener = await Listener.open(1_000_000);
    await listener.until((heard) => heard.some(({ name }) => name === 'resync'));
    listener.close();
  });
});
