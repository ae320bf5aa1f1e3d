import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openJob, reading, type Scene, setScene } from './scene';
import { done, freshFolder, type Json, Served } from './shop';

const kills = 50;
const writers = 4;

/** The same run of numbers for the same seed (Park and Miller, minimal standard). */
const dice = (seed: number) => () => {
  seed = (seed * 48_271) % 2_147_483_647;
  return seed / 2_147_483_647;
};

interface Sent {
  readonly job: string;
  readonly body: Json;
  acknowledged: boolean;
}

/** A tablet: sends what waits, in order, until the shop is gone; what was not acknowledged waits for the next time. */
class Tablet {
  readonly sent: Sent[] = [];
  private count = 0;
  constructor(
    private readonly scene: Scene,
    private readonly job: Json,
    private readonly number: number,
  ) {}

  private next(): Sent {
    const waiting = this.sent.find(({ acknowledged }) => !acknowledged);
    if (waiting) return waiting;
    const text = `21.${String(100 + (this.count++ % 800)).padStart(3, '0')}`;
    const body = { ...reading(this.scene, this.job.parts[0].id, this.number, text), confirmed: true };
    const made = { job: this.job.job.id, body, acknowledged: false };
    this.sent.push(made);
    return made;
  }

  async write(shop: Served): Promise<void> {
    while (true) {
      const one = this.next();
      const got = await shop
        .raw('POST', `/jobs/${one.job}/readings?by_person_id=${this.scene.by}`, one.body)
        .catch(() => undefined);
      if (!got) return;
      if (got.status !== 200) throw new Error(`${got.status} ${JSON.stringify(got.body)}`);
      one.acknowledged = true;
    }
  }
}

test(`an acknowledged reading survives kill -9, ${kills} times at random under ${writers} tablets`, async () => {
  const random = dice(20_261_125);
  const file = join(freshFolder(), 'shop.sqlite');
  let shop = await Served.start(file);
  const scene = await setScene(shop);
  const jobs = await Promise.all(Array.from({ length: writers }, () => openJob(shop, scene, ['left'])));
  const tablets = jobs.map((job, number) => new Tablet(scene, job, number));

  for (let kill = 0; kill < kills; ++kill) {
    const writing = Promise.all(tablets.map((tablet) => tablet.write(shop)));
    await new Promise((resolve) => setTimeout(resolve, 5 + 250 * random()));
    await shop.stop('SIGKILL');
    await writing;
    shop = await Served.start(file);
  }

  const sent = tablets.flatMap((tablet) => tablet.sent);
  const acknowledged = sent.filter((one) => one.acknowledged);
  expect(acknowledged.length).toBeGreaterThan(kills);

  const stored = new Map<string, Json[]>();
  for (const job of jobs) {
    for (const one of (await shop.want('GET', `/jobs/${job.job.id}`)).readings) {
      stored.set(one.id, [...(stored.get(one.id) ?? []), one]);
    }
  }
  const wrong = acknowledged.filter(({ body }) => {
    const [one, ...more] = stored.get(body.id) ?? [];
    return more.length > 0 || one?.value.text !== body.text || one?.point !== body.point;
  });
  expect(wrong).toEqual([]);
  const known = new Set(sent.map(({ body }) => body.id));
  expect([...stored.keys()].filter((id) => !known.has(id))).toEqual([]);

  // What was under way at the kill may be stored or not; sent again it is there once.
  for (const one of sent.filter(({ acknowledged: yes }) => !yes)) {
    await shop.want('POST', `/jobs/${one.job}/readings?by_person_id=${scene.by}`, one.body);
  }
  let total = 0;
  for (const job of jobs) total += (await shop.want('GET', `/jobs/${job.job.id}`)).readings.length;
  expect(total).toBe(sent.length);
  await shop.stop();
  expect(done(['check', '--shop', file])).toContain('nothing wrong');
  console.log(
    `${kills} kills, ${sent.length} readings sent, ${acknowledged.length} acknowledged, ${wrong.length} lost`,
  );
}, 300_000);
