import { request } from 'node:http';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newJob, openJob, reading, type Scene, setScene } from './scene';
import { fetchAlone, freshFolder, type Json, newId, Served } from './shop';

let shop: Served;
let scene: Scene;
let as: string;

beforeAll(async () => {
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  as = `?by_person_id=${scene.by}`;
});
afterAll(async () => {
  await shop.stop();
});

interface Plain {
  readonly status: number;
  readonly text: string;
  readonly headers: Record<string, unknown>;
}

/** A request with any header and any path, as no browser would send it. */
const plain = (path: string, headers: Record<string, string> = {}, method = 'GET', body = ''): Promise<Plain> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(shop.address);
    const sent = request(
      { hostname, port, agent: false, path, method, headers: { host: `127.0.0.1:${port}`, ...headers } },
      (got) => {
        let text = '';
        got.on('data', (part) => {
          text += part;
        });
        got.on('end', () => resolve({ status: got.statusCode ?? 0, text, headers: got.headers }));
      },
    );
    sent.on('error', reject);
    sent.end(body);
  });

const seq = async (): Promise<number> => (await shop.want('GET', '/health')).seq;

describe('bad input', () => {
  const person = (rest: object) => ({ id: newId(), name: 'Bo', role: 'student', active: true, ...rest });
  const put = (body: Json) => shop.refusal('PUT', `/people/${body.id ?? newId()}${as}`, body);

  test.each<[string, object, string]>([
    ['a name of 10,000 characters', { name: 'a'.repeat(10_000) }, 'name'],
    ['an empty name', { name: '' }, 'name'],
    ['a name of blanks', { name: '   ' }, 'name'],
    ['a name that is a number', { name: 7 }, 'name'],
    ['a name with a bell in it', { name: 'Bo\u0007' }, 'name'],
    ['a role that there is not', { role: 'owner' }, 'role'],
    ['a flag in words', { active: 'yes' }, 'active'],
    ['a field that there is not', { nickname: 'B' }, 'nickname'],
    ['null for a name', { name: null }, 'name'],
  ])('%s is refused by its field, and nothing is stored', async (_what, rest, field) => {
    const before = await seq();
    const refused = await put(person(rest));
    expect(refused).toMatchObject({ status: 422, field });
    expect(refused.message.length).toBeGreaterThan(10);
    expect(await seq()).toBe(before);
  });

  test('script in a name is kept as text and comes back as text', async () => {
    const name = '<script>alert(1)</script>"\'&';
    const body = person({ name });
    expect((await shop.want('PUT', `/people/${body.id}${as}`, body)).name).toBe(name);
    const { headers, text } = await plain('/api/v1/shop');
    expect(headers['content-type']).toMatch(/^application\/json/);
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(JSON.parse(text).people.map((known: Json) => known.name)).toContain(name);
  });

  test('an id in the path that is not the one in the body is refused', async () => {
    expect((await shop.refusal('PUT', `/people/${newId()}${as}`, person({}))).status).toBe(422);
  });

  test.each(['not-an-id', '0', '00000000-0000-0000-0000-00000000000G', `${newId()}x`, "' OR 1=1 --"])(
    'an id such as %s is refused',
    async (id) => {
      const refused = await shop.refusal('PUT', `/people/${encodeURIComponent(id)}${as}`, person({ id }));
      expect([404, 422]).toContain(refused.status);
    },
  );

  test('whoever does it must be somebody', async () => {
    const body = newJob(scene, ['left']);
    expect((await shop.refusal('POST', '/jobs', body)).field).toContain('by_person_id');
    expect((await shop.refusal('POST', `/jobs?by_person_id=${newId()}`, body)).status).toBeGreaterThanOrEqual(400);
  });

  test.each(['0000-00-00', '2026-02-30', '2026-13-01', '9999-12-31', '12.03.2026', '2026-3-1', '-1', ''])(
    'a calibration on %s is refused',
    async (calibrated_on) => {
      const id = newId();
      const body = {
        id,
        name: 'M',
        kind: 'micrometer',
        serial: '',
        resolution_nm: 1000,
        mpe_nm: 1000,
        repeatability_nm: 1000,
        default_unit: 'mm',
        active: true,
        calibrated_on,
      };
      const refused = await shop.refusal('PUT', `/instruments/${id}${as}`, body);
      expect(refused).toMatchObject({ status: 422, field: 'calibrated_on' });
    },
  );

  test.each<[string, object, string]>([
    ['no taper', { taper_um: 0 }, 'taper_um'],
    ['a taper that leans the other way', { taper_um: -50 }, 'taper_um'],
    ['a taper in words', { taper_um: 'thin' }, 'taper_um'],
    ['a taper of 3 mm', { taper_um: 3000 }, 'taper_um'],
    ['a diameter of 5 mm', { diameter_nm: 5_000_000 }, 'diameter_nm'],
    ['two studs', { studs: 2 }, 'studs'],
    ['thirteen studs', { studs: 13 }, 'studs'],
    ['half a stud', { studs: 4.5 }, 'studs'],
    ['no name', { name: '' }, 'name'],
  ])('a tapered plate with %s is refused by its field', async (_what, rest, field) => {
    const plate = { id: newId(), name: 'thin wedge', hook: '', taper_um: 50, diameter_nm: 150_000_000, studs: 5 };
    const body = { ...plate, note: '', active: true };
    const path = `/taper-plates/${plate.id}${as}`;
    const before = await seq();
    expect(await shop.refusal('PUT', path, { ...body, ...rest })).toMatchObject({ status: 422, field });
    expect(await seq()).toBe(before);
    expect(await shop.want('PUT', path, body)).toMatchObject(body);
  });

  test.each<[string, object, string]>([
    ['a tyre in words', { tyre: 'the wide ones' }, 'tyre'],
    ['a tyre without its rim', { tyre: '205/55' }, 'tyre'],
    ['a tyre that no road vehicle has', { tyre: '205/55 R60' }, 'tyre'],
    ['a vehicle of a hundred tonnes', { vehicle_mass_kg: 100_000 }, 'vehicle_mass_kg'],
    ['a pulsation felt in the roof', { felt_in: 'roof' }, 'felt_in'],
    ['a pulsation that stands', { felt_speed_km_per_h: 0 }, 'felt_speed_km_per_h'],
    ['a frequency below nought', { felt_frequency_hz: -12 }, 'felt_frequency_hz'],
  ])('a job with %s is refused by its field, as it is opened and later', async (_what, rest, field) => {
    const body = newJob(scene, ['left']);
    const opening = { ...body, job: { ...body.job, ...rest } };
    expect(await shop.refusal('POST', `/jobs${as}`, opening)).toMatchObject({ status: 422, field: `job.${field}` });
    const { job } = await shop.want('POST', `/jobs${as}`, body);
    const refused = await shop.refusal('PUT', `/jobs/${job.id}${as}`, { ...job, ...rest });
    expect(refused).toMatchObject({ status: 422, field });
    expect(refused.message.length).toBeGreaterThan(10);
    const told = { tyre: '205/55 R16', vehicle_mass_kg: 1450, felt_in: 'pedal', felt_speed_km_per_h: 80 };
    expect(await shop.want('PUT', `/jobs/${job.id}${as}`, { ...job, ...told })).toMatchObject(told);
  });

  test.each(['NaN', 'Infinity', '1e999', '-1e999'])('%s in JSON is refused', async (number) => {
    const id = newId();
    const text = `{"id":"${id}","name":"L","dial_um_per_mark":${number},"dial_sd_um":5,"mount_runout_um":30,"note":"","active":true}`;
    const refused = await shop.refusal('PUT', `/lathes/${id}${as}`, text);
    expect(refused.status).toBe(422);
  });

  test.each(['', '{', 'null', '[]', '"x"', '{"id":1}{}', '\ufeff{}', '{"name":"a","name":"b"}', '\u0000'])(
    'a body such as %j is refused',
    async (text) => {
      expect((await shop.refusal('PUT', `/people/${newId()}${as}`, text)).status).toBe(422);
    },
  );

  test('bytes that are no UTF-8 are refused', async () => {
    const id = newId();
    const response = await fetchAlone(`${shop.address}/api/v1/people/${id}${as}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: Buffer.concat([
        Buffer.from(`{"id":"${id}","role":"student","active":true,"name":"`),
        Buffer.from([0xff, 0xfe]),
        Buffer.from('"}'),
      ]),
    });
    expect(response.status).toBe(422);
  });

  test('JSON a thousand levels deep is refused', async () => {
    const deep = `${'{"a":'.repeat(1000)}1${'}'.repeat(1000)}`;
    expect((await shop.refusal('PUT', `/people/${newId()}${as}`, deep)).status).toBe(422);
    expect((await shop.refusal('POST', '/calc/length', '['.repeat(100_000))).status).toBe(422);
  });

  test('a body over 8 MB is refused, and the next request is served', async () => {
    const got = await fetchAlone(`${shop.address}/api/v1/calc/length`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: `{"text":"${'9'.repeat(9_000_000)}"}`,
    }).then(
      ({ status }) => status,
      () => 'closed' as const,
    );
    expect([413, 'closed']).toContain(got);
    expect(await shop.want('GET', '/health')).toMatchObject({ store: 'ok' });
  });

  test.each(['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x'])(
    'a form of another site, sent as %s, changes nothing',
    async (type) => {
      const body = person({});
      const before = await seq();
      const got = await shop.raw('PUT', `/people/${body.id}${as}`, body, { 'content-type': type });
      expect(got.status).toBeGreaterThanOrEqual(400);
      expect(await seq()).toBe(before);
    },
  );
});

describe('a reading', () => {
  let job: Json;
  beforeAll(async () => {
    job = await openJob(shop, scene, ['left']);
  });
  const add = (rest: object, text = '21.5') =>
    shop.refusal('POST', `/jobs/${job.job.id}/readings${as}`, reading(scene, job.parts[0].id, 0, text, rest));

  test.each<[string, object, string]>([
    ['a point that the plan has not', { point: 8 }, 'point'],
    ['a negative point', { point: -1 }, 'point'],
    ['half a point', { point: 0.5 }, 'point'],
    ['a point beyond all whole numbers', { point: 1e300 }, 'point'],
    ['a circle that the plan has not', { circle: 1 }, 'circle'],
    ['a quantity that there is not', { quantity: 'weight' }, 'quantity'],
    ['a stage that there is not', { stage: 'during' }, 'stage'],
    ['a part of no job', { part_id: newId() }, 'part_id'],
    ['an instrument that there is not', { instrument_id: newId() }, 'instrument_id'],
    ['a reading to supersede that there is not', { supersedes_id: newId() }, 'supersedes_id'],
    ['a time in the year 9999', { taken_at: '9999-01-01T00:00:00.000Z' }, 'taken_at'],
    ['a time without a zone', { taken_at: '2026-03-04T09:15:00' }, 'taken_at'],
  ])('at %s is refused by its field', async (_what, rest, field) => {
    const refused = await add(rest);
    expect([404, 409, 422]).toContain(refused.status);
    expect(refused.field).toBe(field);
  });

  test.each(['', ' ', 'abc', '21,23,4', '1e3', '21.5 kg', '--3', '21.5'.repeat(100), '𝟚𝟙', '<b>21</b>'])(
    'of %j is refused as no length',
    async (text) => {
      const refused = await add({}, text);
      expect(refused).toMatchObject({ status: 422, field: 'text' });
    },
  );

  test('with an id that is taken by another reading is refused', async () => {
    const body = reading(scene, job.parts[0].id, 0, '21.500');
    await shop.want('POST', `/jobs/${job.job.id}/readings${as}`, body);
    const again = await shop.ask('POST', `/jobs/${job.job.id}/readings${as}`, body);
    expect(again.status).toBe(200);
    const other = await shop.ask('POST', `/jobs/${job.job.id}/readings${as}`, { ...body, text: '21.400' });
    if (other.status === 200) expect(other.body).toEqual(again.body);
    else expect(other.status).toBe(409);
    const { readings } = await shop.want('GET', `/jobs/${job.job.id}`);
    expect(readings.filter((known: Json) => known.id === body.id)).toHaveLength(1);
  });
});

describe('the door', () => {
  test.each(['/jobs/99999', `/jobs/${newId()}`, '/jobs/99999/assessment', `/jobs/${newId()}/record.pdf`])(
    '%s is 404',
    async (path) => {
      expect((await shop.refusal('GET', path)).status).toBe(404);
    },
  );

  test('a path of the API that there is not is a refusal in JSON', async () => {
    const { status, text } = await plain('/api/v1/nothing');
    expect(status).toBe(404);
    expect(JSON.parse(text).error.code).not.toBe('');
  });

  test.each(['limit=0', 'limit=501', 'limit=x', 'offset=-1', 'state=lost'])('/jobs?%s is refused', async (query) => {
    expect((await shop.refusal('GET', `/jobs?${query}`)).status).toBe(422);
  });

  test.each([
    '/../../etc/passwd',
    '/..%2f..%2fetc%2fpasswd',
    '/%2e%2e/%2e%2e/etc/passwd',
    '/assets/../../../etc/passwd',
    '/assets/%2e%2e%2f%2e%2e%2fetc/passwd',
    '//etc/passwd',
    '/etc/passwd%00.html',
    '/shop.sqlite',
    '/api/v1/../../shop.sqlite',
  ])('%s gives nothing from the disk', async (path) => {
    const { status, text } = await plain(path);
    expect(text).not.toMatch(/root:|SQLite format/);
    if (status === 200) expect(text).toMatch(/<!doctype html>|^Brakewright runs/i);
  });

  test.each(['evil.example', 'evil.example:8520', '127.0.0.1.evil.example'])(
    'a Host of %j is refused',
    async (host) => {
      const { status } = await plain('/api/v1/shop', { host });
      expect([400, 403, 421]).toContain(status);
    },
  );

  test.each(['http://evil.example', 'null', 'https://127.0.0.1.evil.example'])(
    'an Origin of %j is refused',
    async (origin) => {
      const id = newId();
      const body = JSON.stringify({ id, name: 'E', role: 'student', active: true });
      const before = await seq();
      const got = await plain(`/api/v1/people/${id}${as}`, { origin, 'content-type': 'application/json' }, 'PUT', body);
      expect(got.status).toBe(403);
      expect(got.headers['access-control-allow-origin']).toBeUndefined();
      expect(await seq()).toBe(before);
    },
  );

  test('a method that a path does not have is refused', async () => {
    const { status } = await plain('/api/v1/shop', {}, 'DELETE');
    expect([404, 405]).toContain(status);
  });

  test('a header without an end does not stop others from being served', async () => {
    const flood = plain('/api/v1/health', { 'x-long': 'a'.repeat(200_000) }).then(
      ({ status }) => status,
      () => 0,
    );
    expect([0, 400, 413, 431]).toContain(await flood);
    expect(await shop.want('GET', '/health')).toMatchObject({ store: 'ok' });
  });
});
