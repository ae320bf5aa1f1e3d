import { request } from 'node:http';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { setScene } from './scene';
import { freshFolder, type Json, newId, Served } from './shop';

const PASSWORD = 'a long brass hinge';
const PIN = '7310';
let shop: Served;
let teacher: string;
const students: string[] = [];

beforeAll(async () => {
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  teacher = (await setScene(shop)).by;
  for (let i = 0; i < 8; i += 1) {
    const id = newId();
    students.push(id);
    const body = { id, name: `Student ${i}`, role: 'student', active: true };
    await shop.want('PUT', `/people/${id}?by_person_id=${teacher}`, body);
  }
  await shop.want('POST', '/doors/first', { id: teacher, name: '', password: PASSWORD });
  for (const id of students) await shop.session(id, PIN, { new: true });
});
afterAll(async () => {
  await shop.stop();
});

const seq = async (): Promise<number> => (await shop.want('GET', '/health')).seq;
const person = () => ({ id: newId(), name: 'Eve', role: 'teacher', active: true });

interface Plain {
  status: number;
  body: Json;
  headers: Record<string, unknown>;
}

/** A request as no browser would send it. */
const plain = (method: string, path: string, headers: Record<string, string>, body = ''): Promise<Plain> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(shop.address);
    const sent = request(
      {
        hostname,
        port,
        agent: false,
        path: `/api/v1${path}`,
        method,
        headers: { host: `127.0.0.1:${port}`, ...headers },
      },
      (got) => {
        let text = '';
        got.on('data', (part) => {
          text += part;
        });
        got.on('end', () => {
          const json = String(got.headers['content-type']).startsWith('application/json');
          resolve({ status: got.statusCode ?? 0, body: json ? JSON.parse(text) : text, headers: got.headers });
        });
      },
    );
    sent.on('error', reject);
    sent.end(body);
  });

describe('a session', () => {
  test('that somebody else put on a tablet is not the one that its person gets', async () => {
    const fixed = `session=${'ab'.repeat(32)}`;
    const json = { 'content-type': 'application/json', origin: shop.address };
    const body = JSON.stringify({ person_id: students[0], secret: PIN });
    const got = await plain('POST', '/sessions', { ...json, cookie: fixed }, body);
    const given = String(got.headers['set-cookie']).split(';')[0] as string;
    expect(given).toMatch(/^session=[0-9a-f]{64}$/);
    expect(given).not.toBe(fixed);
    expect((await plain('GET', '/shop', { cookie: fixed })).status).toBe(401);
    const again = await plain('POST', '/sessions', { ...json, cookie: given }, body);
    const second = String(again.headers['set-cookie']).split(';')[0] as string;
    expect(second).not.toBe(given);
    expect((await plain('GET', '/shop', { cookie: second })).status).toBe(200);
    expect((await plain('GET', '/shop', { cookie: given })).status).toBe(401);
  });

  test.each<[string, (good: string) => string]>([
    ['a token that was never given', () => `session=${'0'.repeat(64)}`],
    ['a token in capitals', (good) => `session=${good.slice(8).toUpperCase()}`],
    ['a token that is one digit short', (good) => good.slice(0, -1)],
    ['a token with one more digit', (good) => `${good}0`],
    ['a token with one digit changed', (good) => good.slice(0, -1) + (good.endsWith('0') ? '1' : '0')],
    [
      'the hash that is kept of nothing',
      () => 'session=e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
    ],
    ['SQL', () => `session=' OR 1=1 --`],
    ['a path', () => 'session=../../../../etc/passwd'],
    ['nothing', () => 'session='],
    ['8,000 bytes', () => `session=${'f'.repeat(7000)}`],
    ['another name', (good) => good.replace('session', 'sessions')],
  ])('is not had by %s', async (_what, forge) => {
    const good = await shop.session(students[1] as string, PIN);
    expect((await plain('GET', '/shop', { cookie: good })).status).toBe(200);
    const got = await plain('GET', '/shop', { cookie: forge(good) });
    expect([got.status, got.body.error.code]).toEqual([401, 'not_signed_in']);
  });
});

describe('a page of another site', () => {
  test.each<[string, Record<string, string>]>([
    ['that names itself', { origin: 'http://evil.example' }],
    ['that names nobody', { origin: 'null' }],
    ['that hides where it comes from', {}],
    ['that names a name that begins like ours', { origin: 'http://127.0.0.1.evil.example' }],
    ['that the browser knows for one', { origin: '', 'sec-fetch-site': 'cross-site' }],
  ])('%s writes nothing with the cookie of a teacher', async (_what, headers) => {
    const cookie = await shop.session(teacher, PASSWORD);
    const eve = person();
    const before = await seq();
    const path = `/people/${eve.id}?by_person_id=${teacher}`;
    const sent = { cookie, 'content-type': 'application/json', ...headers };
    const got = await plain('PUT', path, sent, JSON.stringify(eve));
    expect([got.status, got.body.error.code]).toEqual([403, 'wrong_origin']);
    expect((await plain('DELETE', '/sessions', { cookie, ...headers })).status).toBe(403);
    expect((await plain('GET', '/shop', { cookie })).status).toBe(200);
    expect(await seq()).toBe(before);
  });
});

describe('made-up ids', () => {
  test.each(["' OR 1=1 --", '../../etc/passwd', '%2e%2e%2fshop.sqlite', newId(), `${newId()}%00`])(
    'such as %s come to nothing in a path of the doors',
    async (id) => {
      const leading = { cookie: await shop.session(teacher, PASSWORD), origin: shop.address };
      const before = await seq();
      for (const [method, path] of [
        ['PUT', `/people/${id.includes('%') ? id : encodeURIComponent(id)}/secret`],
        ['DELETE', `/people/${id.includes('%') ? id : encodeURIComponent(id)}/secret/pin`],
      ] as const) {
        const body = method === 'PUT' ? JSON.stringify({ kind: 'pin', secret: '1234' }) : '';
        const type: Record<string, string> = body ? { 'content-type': 'application/json' } : {};
        const got = await plain(method, path, { ...leading, ...type }, body);
        expect([400, 404, 422]).toContain(got.status);
      }
      expect(await seq()).toBe(before);
    },
  );

  test('do not come in, and are told nothing else than a wrong PIN is', async () => {
    const wrong = await shop.refusal('POST', '/sessions', { person_id: students[2], secret: '0000' });
    const nobody = await shop.refusal('POST', '/sessions', { person_id: newId(), secret: '0000' });
    expect({ ...nobody }).toEqual({ ...wrong });
  });
});

describe('guessing', () => {
  const guess = (person_id: string, secret: string) => shop.ask('POST', '/sessions', { person_id, secret });

  test('costs nothing three times, then waits longer each time, and the right PIN waits as well', async () => {
    const id = students[3] as string;
    const waits: number[] = [];
    // The first of them is free because this tablet knows the name by now.
    for (let i = 0; i < 3; i += 1) {
      const got = await guess(id, '0000');
      expect([got.status, got.body.error.code]).toEqual([401, 'wrong_secret']);
      waits.push(got.body.error.retry_after_s);
    }
    expect(waits).toEqual([0, 0, 1]);
    const right = await guess(id, PIN);
    expect([right.status, right.body.error.code, right.body.error.retry_after_s]).toEqual([429, 'wait', 1]);
    await new Promise((resolve) => setTimeout(resolve, 1_100));
    expect((await guess(id, '0001')).body.error.retry_after_s).toBe(2);
    await new Promise((resolve) => setTimeout(resolve, 2_100));
    expect((await guess(id, PIN)).status).toBe(200);
    expect((await guess(id, '0000')).body.error.retry_after_s).toBe(0);
  });

  test('many at once gains nothing', async () => {
    const id = students[4] as string;
    const all = await Promise.all(Array.from({ length: 20 }, (_, i) => guess(id, String(1000 + i))));
    expect(all.filter(({ status }) => status === 401)).toHaveLength(3);
    expect(all.filter(({ status }) => status === 429)).toHaveLength(17);
  });

  test('one name keeps nobody else waiting', async () => {
    expect((await guess(students[4] as string, PIN)).status).toBe(429);
    expect((await guess(students[5] as string, PIN)).status).toBe(200);
  });
});

describe('an answer at the door', () => {
  test('takes as long for a wrong PIN, for a name without one and for nobody', async () => {
    const fresh = await Served.start(join(freshFolder(), 'shop.sqlite'));
    const { by } = await setScene(fresh);
    const [known, bare] = [newId(), newId()];
    for (const id of [known, bare]) {
      const body = { id, name: `Student ${id.slice(-4)}`, role: 'student', active: true };
      await fresh.want('PUT', `/people/${id}?by_person_id=${by}`, body);
    }
    await fresh.want('POST', '/doors/first', { id: by, name: '', password: PASSWORD });
    await fresh.session(known, PIN, { new: true });
    const least = {
      wrong: Number.POSITIVE_INFINITY,
      without: Number.POSITIVE_INFINITY,
      nobody: Number.POSITIVE_INFINITY,
    };
    for (let i = 0; i < 3; i += 1) {
      for (const [what, person_id] of [
        ['wrong', known],
        ['without', bare],
        ['nobody', newId()],
      ] as const) {
        const began = process.hrtime.bigint();
        const got = await fresh.raw('POST', '/sessions', { person_id, secret: '0000' });
        const took = Number(process.hrtime.bigint() - began);
        expect([got.status, got.body.error.code]).toEqual([401, 'wrong_secret']);
        least[what] = Math.min(least[what], took);
      }
    }
    // A machine that is busy only adds; an answer without a hash behind it comes more than ten times sooner.
    const all = Object.values(least);
    expect(Math.max(...all) / Math.min(...all)).toBeLessThan(4);
    await fresh.stop();
  });
});
