import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { AtBench, actsPath, type Hand, person } from './practice_bench';
import { setScene } from './scene';
import { freshFolder, type Json, newId, Served } from './shop';

const PASSWORD = 'a long brass hinge';
const PIN = '7310';
let shop: Served;
let teacher: Hand;
let leadHand: Hand;
let bo: Hand;
let cy: Hand;
let visitor: Hand;

const get = (hand: Hand, path: string) => shop.want('GET', path, undefined, hand.headers);
const refused = (hand: Hand, method: string, path: string, body?: Json) =>
  shop.refusal(method, path, body, hand.headers);

beforeAll(async () => {
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  const { by } = await setScene(shop);
  const open = { id: by, headers: {} };
  const ids = {
    hand: await person(shop, open, 'Ed Marl', 'lead_hand'),
    bo: await person(shop, open, 'Bo Fern', 'student'),
    cy: await person(shop, open, 'Cy Wold', 'student'),
    visitor: await person(shop, open, 'Di Heath', 'visitor'),
  };
  await shop.want('POST', '/doors/first', { id: by, name: '', password: PASSWORD });
  await shop.signIn(by, PASSWORD);
  await shop.want('PUT', `/people/${ids.hand}/secret`, { kind: 'password', secret: PASSWORD });
  for (const id of [ids.bo, ids.cy, ids.visitor])
    await shop.want('PUT', `/people/${id}/secret`, { kind: 'pin', secret: PIN });
  const as = async (id: string, secret: string): Promise<Hand> => ({
    id,
    headers: { cookie: await shop.session(id, secret), origin: shop.address },
  });
  teacher = await as(by, PASSWORD);
  leadHand = await as(ids.hand, PASSWORD);
  bo = await as(ids.bo, PIN);
  cy = await as(ids.cy, PIN);
  visitor = await as(ids.visitor, PIN);
  shop.cookie = '';
});
afterAll(async () => {
  await shop.stop();
});

describe('behind closed doors', () => {
  test('a student sees and does their own runs alone, and who leads sees all and acts in none', async () => {
    const own = await AtBench.begin(shop, bo);
    const others = await AtBench.begin(shop, cy);
    await own.act({ do: 'look' });
    const idsOf = async (hand: Hand) => (await get(hand, '/practice/runs')).runs.map((one: Json) => one.id);
    expect(await idsOf(bo)).toEqual([own.run.id]);
    expect((await get(bo, `/practice/runs?person_id=${cy.id}`)).runs).toEqual([]);
    for (const hand of [teacher, leadHand]) {
      expect(await idsOf(hand)).toEqual(expect.arrayContaining([own.run.id, others.run.id]));
      expect((await get(hand, `/practice/runs/${own.run.id}`)).acts).toHaveLength(1);
      const act = { number: 2, act: { do: 'look' } };
      expect(await refused(hand, 'POST', actsPath(own.run, hand), act)).toMatchObject({
        status: 403,
        code: 'not_yours',
      });
    }
    for (const tail of ['', '/picture?side=inboard', '/sound'])
      expect(await refused(bo, 'GET', `/practice/runs/${others.run.id}${tail}`)).toMatchObject({
        status: 403,
        code: 'not_yours',
      });
    const act = { number: 1, act: { do: 'look' } };
    expect(await refused(bo, 'POST', actsPath(others.run, bo), act)).toMatchObject({ status: 403, code: 'not_yours' });
    expect(await refused(bo, 'POST', actsPath(others.run, cy), act)).toMatchObject({ status: 403, code: 'not_you' });
    expect((await others.again()).acts).toEqual([]);
  });

  test('a visitor looks at nothing and does nothing', async () => {
    const run = newId();
    for (const path of ['/practice/runs', '/practice/sets', `/practice/runs/${run}`])
      expect(await refused(visitor, 'GET', path)).toMatchObject({ status: 403, code: 'visitor' });
    const begin = `/practice/runs?by_person_id=${visitor.id}`;
    expect(await refused(visitor, 'POST', begin, { difficulty: 1 })).toMatchObject({ status: 403, code: 'visitor' });
  });
});

describe('what a teacher sets the class', () => {
  const set = {
    name: 'Find what sings',
    seed: 424_242,
    difficulty: 3,
    faults: ['thickness_waves', 'wobble'],
    open: false,
  };
  const id = newId();
  const put = (hand: Hand, body: Json, of = id) =>
    shop.ask('PUT', `/practice/sets/${of}?by_person_id=${hand.id}`, body, hand.headers);

  test('is set by who leads, with what is wrong there', async () => {
    expect((await put(teacher, set)).body).toMatchObject({ id, ...set, made_by_person_id: teacher.id });
    expect((await put(bo, set)).status).toBe(403);
    const wrong: [Json, string][] = [
      [{ ...set, faults: ['gremlins'] }, 'faults[0]'],
      [{ ...set, faults: ['thin', 'thin'] }, 'faults[1]'],
      [{ ...set, faults: 'thin' }, 'faults'],
      [{ ...set, difficulty: 9 }, 'difficulty'],
      [{ ...set, seed: 0.5 }, 'seed'],
      [{ ...set, name: ' ' }, 'name'],
      [{ ...set, hint: 'none' }, 'hint'],
    ];
    for (const [body, field] of wrong) {
      const got = await put(teacher, body, newId());
      expect([got.status, got.body.error.field]).toEqual([422, field]);
    }
  });

  test('is begun once it is open, gone on with, and tells no seed and no fault before its mark', async () => {
    expect((await get(bo, '/practice/sets')).sets).toEqual([]);
    expect(await refused(bo, 'POST', `/practice/runs?by_person_id=${bo.id}`, { difficulty: 1, set_id: id })).toEqual(
      expect.objectContaining({ status: 404, code: 'unknown_set' }),
    );
    await put(leadHand, { ...set, open: true });
    const told = (await get(bo, '/practice/sets')).sets;
    expect(told).toHaveLength(1);
    expect(told[0]).toMatchObject({ id, name: set.name, difficulty: 3, seed: null, faults: null, open: true });
    const [whole] = (await get(teacher, '/practice/sets')).sets;
    expect(whole).toMatchObject({ ...set, open: true, made_by_person_id: teacher.id });

    const free = await AtBench.begin(shop, bo, { difficulty: 2 });
    const at = await AtBench.begin(shop, bo, { difficulty: 1, set_id: id });
    expect(at.run).toMatchObject({ set_id: id, set_name: set.name, difficulty: 3 });
    expect((await free.again()).view.ended).toBeNull();
    await at.act({ do: 'look' });
    expect((await AtBench.begin(shop, bo, { difficulty: 1, set_id: id })).run.acts).toHaveLength(1);
    const everything = async () => {
      const texts = [JSON.stringify(at.last), JSON.stringify(await get(bo, '/practice/runs'))];
      for (const hand of [bo, teacher]) texts.push(JSON.stringify(await get(hand, `/practice/runs/${at.run.id}`)));
      return texts.join('\n');
    };
    for (const word of ['424242', '"seed"', '"faults"', 'thickness_waves'])
      expect(await everything()).not.toContain(word);
    await put(teacher, { ...set, open: false });
    await at.handOver();
    const { mark } = await at.again();
    expect([...mark.faults].sort()).toEqual([...set.faults].sort());
  });
});

describe('what practice is worth', () => {
  test('is points that a permit may ask, of a safe run that nobody knew the answer to', async () => {
    const as = `?by_person_id=${teacher.id}`;
    const rule = await get(teacher, '/permit-rule');
    const changed = await shop.want('PUT', `/permit-rule${as}`, { ...rule, practice_points: 1 }, teacher.headers);
    expect(changed.practice_points).toBe(1);
    const need = async (hand: Hand) =>
      (await get(hand, `/people/${hand.id}/permit`)).needs.find((one: Json) => one.what === 'practice');
    expect(await need(cy)).toMatchObject({ done: 0, of: 1 });
    const first = await AtBench.begin(shop, cy, { difficulty: 0, seed: 31 });
    await first.handOver();
    const { mark } = await first.again();
    const points = mark.safe ? Math.floor(mark.points) : 0;
    expect(await need(cy)).toMatchObject({ done: points, of: 1 });
    const second = await AtBench.begin(shop, cy, { difficulty: 0, seed: 31 });
    await second.mount();
    await second.act({ do: 'spindle', rpm: 0 });
    await second.act({ do: 'unmount' });
    await second.act({ do: 'finish' });
    expect(await need(cy)).toMatchObject({ done: points, of: 1 });
    const tooMuch = { ...changed, practice_points: 101 };
    expect(await refused(teacher, 'PUT', `/permit-rule${as}`, tooMuch)).toMatchObject({ field: 'practice_points' });
    await shop.want('PUT', `/permit-rule${as}`, { ...changed, practice_points: null }, teacher.headers);
    expect(await need(cy)).toBeUndefined();
  });

  test('is evidence of a competence, once the run has ended', async () => {
    const competence = {
      id: newId(),
      position: 1,
      name: 'Mounts a disc',
      words: 'from wiping to turning',
      active: true,
    };
    const as = `?by_person_id=${teacher.id}`;
    await shop.want('PUT', `/competences/${competence.id}${as}`, competence, teacher.headers);
    const shown = (run: Json) => ({
      id: newId(),
      competence_id: competence.id,
      person_id: cy.id,
      level: 'alone',
      practice_run_id: run.id,
      note: '',
    });
    const path = `/evidence?by_person_id=${cy.id}`;
    const at = await AtBench.begin(shop, cy, { difficulty: 0 });
    await at.act({ do: 'look' });
    expect(await refused(cy, 'POST', path, shown(at.run))).toMatchObject({ status: 404, code: 'unknown_run' });
    await at.handOver();
    const stored = await shop.want('POST', path, shown(at.run), cy.headers);
    expect(stored.practice_run_id).toBe(at.run.id);
    const others = (await get(teacher, `/practice/runs?person_id=${bo.id}`)).runs.find(
      (one: Json) => one.points !== null,
    );
    expect(await refused(cy, 'POST', path, shown(others))).toMatchObject({ status: 404, code: 'unknown_run' });
  });
});
