import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { description } from './contract';
import { newJob, openJob, type Scene, setScene } from './scene';
import { fetchAlone, freshFolder, type Json, newId, Served } from './shop';

/** Every operation that the API describes, called by everybody that there is, and held to its `x-right`. */
const WHO = ['nobody', 'visitor', 'student on an own job', 'student on another job', 'lead hand', 'teacher'] as const;
type Who = (typeof WHO)[number];
type Right = 'anyone' | 'member' | 'self' | 'worker' | 'teacher';

const MAY: Record<Right, readonly Who[]> = {
  anyone: WHO,
  member: WHO.filter((who) => who !== 'nobody'),
  self: WHO.filter((who) => who !== 'nobody'),
  worker: ['student on an own job', 'student on another job', 'lead hand', 'teacher'],
  teacher: ['lead hand', 'teacher'],
};

interface Operation {
  id: string;
  method: string;
  template: string;
  right: Right;
  signed: boolean;
  body: string | null;
  without_session: boolean;
}

type Described = {
  operationId: string;
  'x-right'?: string;
  security?: unknown[];
  parameters?: { $ref?: string }[];
  requestBody?: Json;
};

const operations: Operation[] = Object.entries(description.paths).flatMap(([template, path]) =>
  Object.entries(path)
    .filter(([method]) => ['get', 'put', 'post', 'delete'].includes(method))
    .map(([method, any]) => {
      const one = any as unknown as Described;
      return {
        id: one.operationId,
        method: method.toUpperCase(),
        template,
        right: one['x-right'] as Right,
        signed: (one.parameters ?? []).some((parameter) => parameter.$ref?.endsWith('/by')),
        without_session: one.security?.length === 0,
        body: one.requestBody ? (Object.keys(one.requestBody.content)[0] as string) : null,
      };
    }),
);

const PASSWORD = 'a long brass hinge';
const PIN = '7310';
let shop: Served;
let scene: Scene;
let own: Json;
let others: Json;
const cookies = {} as Record<Who, string>;
const ids = {} as Record<Who, string>;

async function person(name: string, role: string): Promise<string> {
  const id = newId();
  await shop.want('PUT', `/people/${id}?by_person_id=${scene.by}`, { id, name, role, active: true });
  return id;
}

beforeAll(async () => {
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  const [student, other, visitor, hand] = await Promise.all([
    person('Bo', 'student'),
    person('Cy', 'student'),
    person('Di', 'visitor'),
    person('Ed', 'lead_hand'),
  ]);
  own = await openJob(shop, { ...scene, by: student }, ['left']);
  others = await openJob(shop, { ...scene, by: other }, ['left']);
  await shop.want('POST', '/doors/first', { id: scene.by, name: '', password: PASSWORD });
  await shop.signIn(scene.by, PASSWORD);
  await shop.want('PUT', `/people/${hand}/secret`, { kind: 'password', secret: PASSWORD });
  for (const id of [student, other, visitor])
    await shop.want('PUT', `/people/${id}/secret`, { kind: 'pin', secret: PIN });
  Object.assign(ids, {
    nobody: scene.by,
    visitor,
    'student on an own job': student,
    'student on another job': student,
    'lead hand': hand,
    teacher: scene.by,
  });
  for (const who of WHO) {
    cookies[who] = who === 'nobody' ? '' : await shop.session(ids[who], MAY.teacher.includes(who) ? PASSWORD : PIN);
  }
  shop.cookie = '';
});
afterAll(async () => {
  await shop.stop();
});

const jobOf = (who: Who): Json => (who === 'student on another job' ? others : own);

/** @param about  whose it is that is asked for, of an operation for oneself; else the caller's own */
function pathOf(operation: Operation, who: Who, about?: string): string {
  const job = jobOf(who);
  const filled = operation.template.replace(/\{(\w+)\}/g, (_, name: string) => {
    if (name === 'job_id') return job.job.id;
    if (name === 'part_id') return job.parts[0].id;
    if (name === 'lathe_id') return scene.lathe;
    if (name === 'stage') return 'before';
    if (name === 'kind') return 'pin';
    if (name === 'person_id' && operation.right === 'self') return about ?? ids[who];
    if (name === 'name') return 'length';
    return newId();
  });
  if (operation.signed) return `${filled}?by_person_id=${ids[who]}`;
  return operation.right === 'self' && !operation.template.includes('{person_id}')
    ? `${filled}?person_id=${about ?? ids[who]}`
    : filled;
}

async function knock(operation: Operation, who: Who, headers: Record<string, string> = {}) {
  const sent: Record<string, string> = { origin: shop.address, ...headers };
  if (cookies[who]) sent.cookie = cookies[who];
  if (operation.body) sent['content-type'] = operation.body;
  if (operation.id === 'events') return knockAtEvents(sent);
  const body = operation.body === null ? undefined : operation.body === 'application/json' ? '{}' : 'name\n';
  const got = await shop.raw(operation.method, pathOf(operation, who), body, sent);
  return { status: got.status, code: got.body?.error?.code as string | undefined };
}

async function knockAtEvents(headers: Record<string, string>) {
  const giveUp = new AbortController();
  const response = await fetchAlone(`${shop.address}/api/v1/events`, { headers, signal: giveUp.signal });
  const code = response.status === 200 ? undefined : ((await response.json()) as Json).error.code;
  giveUp.abort();
  return { status: response.status, code };
}

/** Whether the door, and not the operation behind it, has answered. */
const SHUT = ['not_signed_in', 'needs_teacher', 'visitor', 'not_yours', 'not_you'];

describe('the table of who may what', () => {
  test('names a right for every operation, and has operations of each', () => {
    expect(operations.length).toBeGreaterThan(60);
    expect(operations.filter(({ right }) => !(right in MAY)).map(({ id }) => id)).toEqual([]);
    for (const right of Object.keys(MAY)) expect(operations.some((one) => one.right === right)).toBe(true);
  });

  test('gives nobody who is not signed in more than the door itself, and a word on a record that they have', () => {
    const open = operations.filter(({ right }) => right === 'anyone').map(({ id }) => id);
    expect(open.sort()).toEqual(['check_record', 'close_doors', 'doors', 'health', 'openapi', 'sign_in', 'sign_out']);
    expect(
      operations
        .filter((one) => one.without_session)
        .map(({ id }) => id)
        .sort(),
    ).toEqual(open);
  });

  test.each(operations.filter(({ id }) => id !== 'sign_out'))('$method $template is for: $right', async (operation) => {
    const wrong: string[] = [];
    for (const who of WHO) {
      const { status, code } = await knock(operation, who);
      const ofAJob = operation.template.includes('{job_id}');
      const elsewhere = who === 'student on another job' && operation.right === 'worker' && ofAJob;
      const may = MAY[operation.right].includes(who) && !elsewhere;
      const said = `${who}: ${status} ${code ?? ''}`;
      if (may && ((code && SHUT.includes(code)) || status >= 500)) wrong.push(`${said}, but may`);
      if (may) continue;
      const expected =
        who === 'nobody'
          ? [401, 'not_signed_in']
          : elsewhere
            ? [403, 'not_yours']
            : who === 'visitor' && operation.right === 'worker'
              ? [403, 'visitor']
              : [403, 'needs_teacher'];
      if (status !== expected[0] || code !== expected[1]) wrong.push(`${said}, but may not`);
    }
    expect(wrong).toEqual([]);
  });

  test.each(operations.filter(({ right }) => right === 'self'))(
    '$method $template is about oneself, or for who leads',
    async (operation) => {
      for (const who of WHO) {
        const path = pathOf(operation, who, ids['lead hand']);
        const got = await shop.raw('GET', path, undefined, cookies[who] ? { cookie: cookies[who] } : {});
        const told = [got.status, got.body?.error?.code];
        if (who === 'nobody') expect(told).toEqual([401, 'not_signed_in']);
        else if (MAY.teacher.includes(who)) expect(SHUT).not.toContain(told[1]);
        else expect(told).toEqual([403, 'not_yours']);
      }
    },
  );

  test.each(operations.filter(({ signed }) => signed))(
    '$method $template is done in nobody else’s name',
    async (one) => {
      const path = pathOf(one, 'student on an own job').replace(/by_person_id=.*/, `by_person_id=${ids.teacher}`);
      const headers = {
        cookie: cookies['student on an own job'],
        origin: shop.address,
        ...(one.body ? { 'content-type': one.body } : {}),
      };
      const got = await shop.raw(one.method, path, one.body ? '{}' : undefined, headers);
      expect([got.status, got.body.error.code]).toEqual([403, 'not_you']);
      const forged = await shop.raw(one.method, path, one.body ? '{}' : undefined, {
        ...headers,
        signature: 'a'.repeat(64),
      });
      expect([forged.status, forged.body.error.code]).toEqual([403, 'bad_signature']);
    },
  );
});

describe('what a student’s own work may contain', () => {
  const as = () => ({ cookie: cookies['student on an own job'], origin: shop.address });
  const student = () => ids['student on an own job'];
  const refused = async (method: string, path: string, body?: Json) =>
    shop.refusal(method, `${path}?by_person_id=${student()}`, body, as());
  const done = (method: string, path: string, body?: Json) =>
    shop.want(method, `${path}?by_person_id=${student()}`, body, as());

  test('is a limit whose source nobody knows, and none that is said to stand on the part', async () => {
    const part = (await shop.want('GET', `/jobs/${own.job.id}`, undefined, as())).parts[0];
    const scoring = { value: { text: '0.4', unit: 'mm' }, source: 'unknown', source_note: '' };
    const path = `/jobs/${own.job.id}/parts/${part.id}`;
    const changed = await done('PUT', path, { ...part, limits: { ...part.limits, scoring } });
    const cast = { ...changed, limits: { ...changed.limits, scoring: { ...scoring, source: 'cast_on_part' } } };
    expect(await refused('PUT', path, cast)).toMatchObject({ status: 403, code: 'needs_teacher' });
    for (const discard of [
      null,
      { ...changed.limits.discard, source: 'unknown', value: { text: '19.0', unit: 'mm' } },
    ]) {
      const without = { ...changed, limits: { ...changed.limits, discard } };
      expect(await refused('PUT', path, without)).toMatchObject({ status: 403, code: 'needs_teacher' });
    }
    const moved = { ...changed.limits.discard, value: { text: '19.0', unit: 'mm' } };
    const lower = { ...changed, limits: { ...changed.limits, discard: moved } };
    expect(await refused('PUT', path, lower)).toMatchObject({ status: 403, code: 'needs_teacher' });
    const opened = newJob({ ...scene, by: student() }, ['left']);
    expect(await refused('POST', '/jobs', opened)).toMatchObject({ status: 403, code: 'needs_teacher' });
    const bare = { ...opened, parts: opened.parts.map((one) => ({ ...one, limits: {} })) };
    expect((await done('POST', '/jobs', bare)).job.opened_by_person_id).toBe(student());
  });

  test('is what was computed, and not a decision against it with a reason', async () => {
    const path = `/jobs/${own.job.id}/decisions`;
    const overrule = { id: newId(), action: 'replace', reason: 'I think so' };
    expect(await refused('POST', path, overrule)).toMatchObject({ status: 403, code: 'needs_teacher' });
    expect(await refused('POST', path, { ...overrule, reason: '' })).toMatchObject({ code: 'reason_needed' });
  });

  test('is taken back by whoever entered it, and not by another', async () => {
    const part_id = own.parts[0].id;
    const finding = { id: newId(), part_id, kind: 'rust_lip', judgement: 'noted', note: '' };
    const path = `/jobs/${own.job.id}/findings`;
    await shop.want('POST', `${path}?by_person_id=${ids.teacher}`, finding, {
      cookie: cookies.teacher,
      origin: shop.address,
    });
    expect(await refused('POST', `${path}/${finding.id}/withdraw`)).toMatchObject({ code: 'needs_teacher' });
    const mine = { ...finding, id: newId() };
    await done('POST', path, mine);
    expect((await done('POST', `${path}/${mine.id}/withdraw`)).withdrawn_by_person_id).toBe(student());
  });

  test('is a job that nobody has, taken by oneself and given to nobody else', async () => {
    const teacher = { cookie: cookies.teacher, origin: shop.address };
    const bare = newJob(scene, ['left']);
    const file = await shop.want(
      'POST',
      `/jobs?by_person_id=${ids.teacher}`,
      { ...bare, job: { ...bare.job, worker_person_id: null } },
      teacher,
    );
    const path = `/jobs/${file.job.id}`;
    expect(await refused('PUT', path, { ...file.job, worker_person_id: ids.visitor })).toMatchObject({
      code: 'needs_teacher',
    });
    expect((await done('PUT', path, { ...file.job, worker_person_id: student() })).worker_person_id).toBe(student());
  });

  test('queues a job of one’s own, and shows nothing on a job of somebody else', async () => {
    const entry = { id: newId(), job_id: others.job.id, person_id: student() };
    expect(await refused('POST', `/lathes/${scene.lathe}/queue`, entry)).toMatchObject({ code: 'not_yours' });
    const shown = {
      id: newId(),
      competence_id: newId(),
      person_id: student(),
      level: 'seen',
      job_id: others.job.id,
      note: '',
    };
    expect(await refused('POST', '/evidence', shown)).toMatchObject({ code: 'not_yours' });
    await done('POST', `/lathes/${scene.lathe}/queue`, { ...entry, job_id: own.job.id });
  });

  test('leaves the shop a teacher who can come in', async () => {
    const teacher = { cookie: cookies.teacher, origin: shop.address };
    const path = `/people/${ids.teacher}?by_person_id=${ids.teacher}`;
    const { people } = await shop.want('GET', '/shop', undefined, teacher);
    const self = people.find((one: Json) => one.id === ids.teacher);
    for (const change of [{ active: false }, { role: 'student' }])
      expect(await shop.refusal('PUT', path, { ...self, ...change }, teacher)).toMatchObject({ code: 'last_door' });
    expect((await shop.want('PUT', path, { ...self, name: 'Ada Stone' }, teacher)).name).toBe('Ada Stone');
  });

  test('makes no teacher, whoever leads', async () => {
    const id = newId();
    const hand = { cookie: cookies['lead hand'], origin: shop.address };
    const path = `/people/${id}?by_person_id=${ids['lead hand']}`;
    const made = (role: string) => ({ id, name: 'Fay', role, active: true });
    expect(await shop.refusal('PUT', path, made('teacher'), hand)).toMatchObject({
      status: 403,
      code: 'needs_teacher',
    });
    expect((await shop.want('PUT', path, made('student'), hand)).role).toBe('student');
    const raise = `/people/${ids['lead hand']}?by_person_id=${ids['lead hand']}`;
    const self = { id: ids['lead hand'], name: 'Ed', role: 'teacher', active: true };
    expect(await shop.refusal('PUT', raise, self, hand)).toMatchObject({ status: 403, code: 'needs_teacher' });
    const secret = { kind: 'password', secret: 'another long one' };
    expect(await shop.refusal('PUT', `/people/${ids.teacher}/secret`, secret, hand)).toMatchObject({
      code: 'needs_teacher',
    });
  });
});

describe('a student at the lathe and in a study', () => {
  const student = () => ids['student on an own job'];
  const asStudent = () => ({ cookie: cookies['student on an own job'], origin: shop.address });
  const asTeacher = () => ({ cookie: cookies.teacher, origin: shop.address });

  test('cuts alone with a permit only, or once a teacher has signed on this tablet that they stand by', async () => {
    const path = `/jobs/${own.job.id}/bench-steps?by_person_id=${student()}`;
    expect(await shop.refusal('POST', path, {}, asStudent())).toMatchObject({ status: 403, code: 'needs_permit' });
    const pin = { kind: 'pin', secret: '8642', present_secret: PASSWORD };
    await shop.want('PUT', `/people/${ids.teacher}/secret`, pin, asTeacher());
    const sign = { person_id: ids.teacher, pin: pin.secret, operation: 'sign_cut' };
    const { token } = await shop.want('POST', '/signatures', sign, asStudent());
    const cut = { id: newId(), person_id: student(), job_id: own.job.id, note: '' };
    await shop.want('POST', `/supervised-cuts?by_person_id=${ids.teacher}`, cut, { ...asStudent(), signature: token });
    expect(await shop.refusal('POST', path, {}, asStudent())).toMatchObject({ status: 422, code: 'missing' });
    const elsewhere = newJob({ ...scene, by: student() }, ['left']);
    const bare = { ...elsewhere, parts: elsewhere.parts.map((one) => ({ ...one, limits: {} })) };
    const { job } = await shop.want('POST', `/jobs?by_person_id=${student()}`, bare, asStudent());
    const there = `/jobs/${job.id}/bench-steps?by_person_id=${student()}`;
    expect(await shop.refusal('POST', there, {}, asStudent())).toMatchObject({ code: 'needs_permit' });
  });

  test('learns what a study says when it is closed, and not while hands may still be led by it', async () => {
    const by = `?by_person_id=${ids.teacher}`;
    const parts = [newId(), newId()];
    for (const part of parts) {
      const wanted = {
        id: part,
        name: `Disc ${part}`,
        place_words: 'on the painted dot',
        reference: { text: '20.112', unit: 'mm' },
        expanded_uncertainty_nm: 1000,
        source: 'measured against gauge blocks',
        active: true,
      };
      await shop.want('PUT', `/reference-parts/${part}${by}`, wanted, asTeacher());
    }
    const id = newId();
    const wanted = {
      id,
      name: 'First week',
      reference_part_ids: parts,
      person_ids: [student()],
      instrument_ids: [scene.micrometer],
      repeats: 2,
      closed: false,
    };
    const { study } = await shop.want('PUT', `/studies/${id}${by}`, wanted, asTeacher());
    const answer = `/studies/${id}/answer`;
    expect(await shop.refusal('GET', answer, undefined, asStudent())).toMatchObject({
      status: 403,
      code: 'not_closed',
    });
    await shop.want('GET', answer, undefined, asTeacher());
    await shop.want('PUT', `/studies/${id}${by}`, { ...study, closed: true }, asTeacher());
    await shop.want('GET', answer, undefined, asStudent());
  });

  test('hears of what changes, and neither sizes nor right answers by it', async () => {
    const point = {
      id: newId(),
      position: 1,
      question: 'Which hand turns a left-hand nut?',
      choices: ['the one that is free', 'neither while it turns'],
      right_choice: 1,
      reason: 'nothing is touched while it turns',
      active: true,
    };
    await shop.want('PUT', `/safety-points/${point.id}?by_person_id=${ids.teacher}`, point, asTeacher());
    const giveUp = new AbortController();
    const response = await fetchAlone(`${shop.address}/api/v1/events?after=0`, {
      headers: asStudent(),
      signal: giveUp.signal,
    });
    let heard = '';
    const decoder = new TextDecoder();
    for await (const part of response.body as unknown as AsyncIterable<Uint8Array>) {
      heard += decoder.decode(part);
      if (heard.includes(point.id)) break;
    }
    giveUp.abort();
    const changes = [...heard.matchAll(/^data: (.*)$/gm)].map(([, data]) => JSON.parse(data as string));
    const kinds = (word: string) => changes.filter((one: Json) => one.kind?.startsWith(word));
    expect(kinds('safety_point.').map((one: Json) => one.detail)).toContainEqual({ id: point.id });
    expect(kinds('reference_part.').length).toBeGreaterThan(0);
    for (const one of kinds('reference_part.')) expect(Object.keys(one.detail)).toEqual(['id']);
    expect(
      kinds('part.')
        .concat(kinds('job.'))
        .some((one: Json) => Object.keys(one.detail).length > 3),
    ).toBe(true);
  });
});
