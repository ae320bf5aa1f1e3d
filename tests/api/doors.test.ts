import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { setScene } from './scene';
import { DEMO_PASSWORD, DEMO_PIN, done, fetchAlone, freshFolder, type Json, newId, run, Served } from './shop';

const PASSWORD = 'a long brass hinge';

/** A shop with a teacher, who has a password, and a student, who has none yet. */
async function closedShop() {
  const shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  const { by } = await setScene(shop);
  const student = newId();
  await shop.want('PUT', `/people/${student}?by_person_id=${by}`, {
    id: student,
    name: 'Bo',
    role: 'student',
    active: true,
  });
  await shop.want('POST', '/doors/first', { id: by, name: '', password: PASSWORD });
  return { shop, teacher: by, student };
}

const asOf = (shop: Served, cookie: string) => ({ cookie, origin: shop.address });

describe('the doors of a shop', () => {
  test('are open while nobody has a secret, and closed by the first password', async () => {
    const shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
    expect(await shop.want('GET', '/doors')).toMatchObject({ closed: false, people: [], you: null, hint: null });
    const { by } = await setScene(shop);
    expect((await shop.refusal('POST', '/sessions', { person_id: by, secret: '1234' })).code).toBe('doors_open');
    const weak = { id: by, name: '', password: 'short' };
    expect(await shop.refusal('POST', '/doors/first', weak)).toMatchObject({ status: 422, field: 'password' });
    expect(await shop.want('POST', '/doors/first', { ...weak, password: PASSWORD })).toMatchObject({
      person_id: by,
      role: 'teacher',
      idle_minutes: 30,
    });
    const doors = await shop.want('GET', '/doors');
    expect(doors).toMatchObject({ closed: true, you: null });
    expect(doors.people).toEqual([
      { id: by, name: 'Ada Stone', role: 'teacher', has_secret: true, secret_kind: 'password', can_sign: false },
    ]);
    expect(await shop.refusal('GET', '/shop')).toMatchObject({ status: 401, code: 'not_signed_in' });
    expect((await shop.refusal('POST', '/doors/first', { ...weak, password: PASSWORD })).code).toBe('doors_closed');
    await shop.stop();
  });

  test('make the first teacher of an empty shop, who is signed in at once', async () => {
    const shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
    const id = newId();
    const response = await fetchAlone(`${shop.address}/api/v1/doors/first`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ id, name: 'Ines Halloway', password: PASSWORD }),
    });
    const cookie = response.headers.get('set-cookie') ?? '';
    expect(cookie).toMatch(/^session=[0-9a-f]{64}; Max-Age=43200; Path=\/; HttpOnly; SameSite=Strict$/);
    shop.cookie = cookie.split(';')[0] as string;
    const view = await shop.want('GET', '/shop');
    expect(view.people).toMatchObject([{ id, name: 'Ines Halloway', role: 'teacher' }]);
    await shop.stop();
  });

  test('stay closed to a student who says to be the first', async () => {
    const shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
    const { by } = await setScene(shop);
    const id = newId();
    await shop.want('PUT', `/people/${id}?by_person_id=${by}`, { id, name: 'Bo', role: 'student', active: true });
    for (const who of [id, newId()]) {
      const first = { id: who, name: 'Bo', password: PASSWORD };
      expect(await shop.refusal('POST', '/doors/first', first)).toMatchObject({ status: 409, code: 'needs_teacher' });
    }
    expect((await shop.want('GET', '/doors')).closed).toBe(false);
    await shop.stop();
  });

  test('let a demo shop’s people in by what it says itself', async () => {
    const file = join(freshFolder(), 'demo.sqlite');
    done(['demo', '--shop', file]);
    const shop = await Served.start(file);
    const { closed, hint, people } = await shop.want('GET', '/doors');
    expect(closed).toBe(true);
    expect(hint).toContain(DEMO_PIN);
    expect(hint).toContain(DEMO_PASSWORD);
    expect(people.map((one: Json) => one.has_secret)).not.toContain(false);
    for (const one of people) {
      await shop.session(one.id, one.secret_kind === 'pin' ? DEMO_PIN : DEMO_PASSWORD);
      expect(one.can_sign).toBe(['teacher', 'lead_hand'].includes(one.role));
    }
    await shop.stop();
    expect(done(['check', '--shop', file])).toContain('nothing wrong');
  }, 180_000);
});

describe('a student', () => {
  let closed: Awaited<ReturnType<typeof closedShop>>;
  beforeAll(async () => {
    closed = await closedShop();
  });
  afterAll(async () => {
    await closed.shop.stop();
  });

  test('chooses a PIN at the first sign-in, comes in by it, changes it, and loses it to the teacher alone', async () => {
    const { shop, teacher, student } = closed;
    const at = (secret: string, rest: object = {}) => ({ person_id: student, secret, ...rest });
    expect((await shop.refusal('POST', '/sessions', at('2468'))).code).toBe('wrong_secret');
    for (const weak of ['123', '123456789', '12a4', 'abcd']) {
      expect((await shop.refusal('POST', '/sessions', at(weak, { new: true }))).code).toBe('too_weak');
    }
    const cookie = await shop.session(student, '2468', { new: true });
    expect((await shop.refusal('POST', '/sessions', at('1111', { new: true }))).code).toBe('has_secret');
    expect((await shop.want('GET', '/doors', undefined, asOf(shop, cookie))).you).toEqual({
      person_id: student,
      role: 'student',
      idle_minutes: 20,
    });

    const path = `/people/${student}/secret`;
    const fresh = { kind: 'pin', secret: '1357' };
    const other = await shop.session(student, '2468');
    const wrong = { ...fresh, present_secret: '9999' };
    expect(await shop.refusal('PUT', path, wrong, asOf(shop, cookie))).toMatchObject({ code: 'wrong_secret' });
    await shop.want('PUT', path, { ...fresh, present_secret: '2468' }, asOf(shop, cookie));
    expect((await shop.want('GET', '/shop', undefined, asOf(shop, cookie))).people.length).toBe(2);
    expect((await shop.refusal('GET', '/shop', undefined, asOf(shop, other))).code).toBe('not_signed_in');
    expect((await shop.refusal('PUT', `/people/${teacher}/secret`, fresh, asOf(shop, cookie))).code).toBe(
      'needs_teacher',
    );

    const leading = asOf(shop, await shop.session(teacher, PASSWORD));
    await shop.want('DELETE', `${path}/pin`, undefined, leading);
    expect((await shop.refusal('GET', '/shop', undefined, asOf(shop, cookie))).code).toBe('not_signed_in');
    const { people } = await shop.want('GET', '/doors');
    expect(people.find((one: Json) => one.id === student).has_secret).toBe(false);
    await shop.session(student, '8642', { new: true });
  });

  test('who is out of use or gone does not come in, and is put out', async () => {
    const { shop, teacher } = closed;
    const leading = asOf(shop, await shop.session(teacher, PASSWORD));
    const id = newId();
    const put = (active: boolean) =>
      shop.want('PUT', `/people/${id}?by_person_id=${teacher}`, { id, name: 'Cy', role: 'student', active }, leading);
    await put(true);
    const cookie = await shop.session(id, '2468', { new: true });
    await put(false);
    expect((await shop.refusal('GET', '/shop', undefined, asOf(shop, cookie))).code).toBe('not_signed_in');
    expect((await shop.refusal('POST', '/sessions', { person_id: id, secret: '2468' })).status).toBe(401);
    const { people } = await shop.want('GET', '/doors');
    expect(people.map((one: Json) => one.id)).not.toContain(id);
  });

  test('leaves, and the cookie is worth nothing any more', async () => {
    const { shop, teacher } = closed;
    const headers = asOf(shop, await shop.session(teacher, PASSWORD));
    await shop.want('GET', '/shop', undefined, headers);
    await shop.want('DELETE', '/sessions', undefined, headers);
    expect((await shop.refusal('GET', '/shop', undefined, headers)).code).toBe('not_signed_in');
  });
});

describe('a class list', () => {
  test('gives who is new the PIN that it names, and whoever has none chooses one', async () => {
    const { shop, teacher } = await closedShop();
    const leading = asOf(shop, await shop.session(teacher, PASSWORD));
    const as = `?by_person_id=${teacher}`;
    const id = newId();
    await shop.want('PUT', `/classes/${id}${as}`, { id, name: 'Brakes', term: 'spring', archived: false }, leading);
    const list = 'name,pin\nCy Marsh,4711\nDi Fern,\n';
    const taken = await shop.raw('POST', `/classes/${id}/roster/import${as}`, list, {
      ...leading,
      'content-type': 'text/csv',
    });
    expect(taken.body).toMatchObject({ stored: true, added: 2 });
    const [first, second] = taken.body.lines.map((line: Json) => line.person_id);
    await shop.session(first, '4711');
    await expect(shop.session(second, '4711')).rejects.toThrow('wrong_secret');
    await shop.session(second, '2580', { new: true });
    await shop.stop();
  });
});

describe('a teacher’s signature', () => {
  test('lets one operation through on the student’s tablet, once, in the teacher’s name', async () => {
    const { shop, teacher, student } = await closedShop();
    const leading = asOf(shop, await shop.session(teacher, PASSWORD));
    await shop.want(
      'PUT',
      `/people/${teacher}/secret`,
      { kind: 'pin', secret: '9753', present_secret: PASSWORD },
      leading,
    );
    const tablet = asOf(shop, await shop.session(student, '2468', { new: true }));
    const elsewhere = asOf(shop, await shop.session(student, '2468'));
    const sign = (headers: Record<string, string>, rest: object = {}) =>
      shop.ask('POST', '/signatures', { person_id: teacher, pin: '9753', operation: 'sign_cut', ...rest }, headers);
    expect((await sign(tablet, { pin: '0000' })).body.error.code).toBe('wrong_secret');
    expect((await sign(tablet, { person_id: student, pin: '2468' })).body.error.code).toBe('needs_teacher');
    for (const operation of ['everything', 'put_person', 'change_settings', 'give_permit'])
      expect((await sign(tablet, { operation })).status).toBe(422);
    const { token, good_for_s } = (await sign(tablet)).body;
    expect(good_for_s).toBe(90);

    const put = (headers: Record<string, string>, by: string, note = 'stood beside it') => {
      const body = { id: newId(), person_id: student, note };
      return shop.ask('POST', `/supervised-cuts?by_person_id=${by}`, body, { ...headers, signature: token });
    };
    const code = async (asked: Promise<Json>) => (await asked).body.error?.code;
    expect(await code(put(elsewhere, teacher))).toBe('bad_signature');
    expect(await code(put(tablet, student))).toBe('bad_signature');
    const settings = `/shop/settings?by_person_id=${teacher}`;
    const other = await shop.ask('PUT', settings, {}, { ...tablet, signature: token });
    expect(other.body.error.code).toBe('bad_signature');
    expect((await put(tablet, teacher, 'x'.repeat(5000))).status).toBe(422);
    expect((await put(tablet, teacher)).status).toBe(200);
    expect(await code(put(tablet, teacher))).toBe('bad_signature');
    await shop.stop();
  });
});

describe('a program that was started again', () => {
  test('still knows its tablets, keeps no token and no secret anywhere, and starts anew from a torn session file', async () => {
    const { shop, teacher, student } = await closedShop();
    const cookie = await shop.session(teacher, PASSWORD);
    await shop.session(student, '86420', { new: true });
    await shop.stop();
    const sessions = `${shop.file}.sessions`;
    expect(statSync(sessions).mode & 0o077).toBe(0);
    const token = cookie.slice('session='.length);
    for (const file of [shop.file, sessions, `${sessions}-wal`, `${shop.file}-wal`].filter(existsSync)) {
      const bytes = readFileSync(file).toString('latin1');
      expect(bytes).not.toContain(token);
      expect(bytes).not.toContain(PASSWORD);
    }
    const again = await Served.start(shop.file);
    again.cookie = cookie;
    const exported = JSON.stringify(await again.want('GET', '/export.json'));
    expect(exported).not.toContain('argon2');
    expect(JSON.stringify(await again.want('GET', '/shop'))).not.toContain('argon2');
    await again.stop();

    writeFileSync(sessions, 'torn '.repeat(1000));
    const torn = await Served.start(shop.file);
    torn.cookie = cookie;
    expect((await torn.refusal('GET', '/shop')).code).toBe('not_signed_in');
    await torn.signIn(teacher, PASSWORD);
    await torn.want('GET', '/shop');
    await torn.stop();
  });

  test('takes a password that was set at the machine itself', async () => {
    const { shop, teacher } = await closedShop();
    const cookie = await shop.session(teacher, PASSWORD);
    const args = ['password', '--shop', shop.file, 'Ada Stone'];
    expect(run(args, 'a new brass hinge\n').code).toBe(3);
    await shop.stop();
    expect(run(args, 'short\n').code).toBe(2);
    expect(run(['password', '--shop', shop.file, 'Bo'], 'a new brass hinge\n').code).toBe(2);
    expect(done(args, 'a new brass hinge\n')).toContain('Ada Stone');
    const again = await Served.start(shop.file);
    again.cookie = cookie;
    expect((await again.refusal('GET', '/shop')).code).toBe('not_signed_in');
    again.cookie = '';
    expect((await again.refusal('POST', '/sessions', { person_id: teacher, secret: PASSWORD })).code).toBe(
      'wrong_secret',
    );
    await again.signIn(teacher, 'a new brass hinge');
    await again.want('GET', '/shop');
    await again.stop();
    expect(done(['check', '--shop', shop.file])).toContain('nothing wrong');
  });
});
