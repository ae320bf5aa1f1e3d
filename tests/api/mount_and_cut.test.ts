import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addRound, openJob, putPlan, round, type Scene, setScene } from './scene';
import { freshFolder, type Json, newId, Served } from './shop';

let shop: Served;
let scene: Scene;
let as: string;
let insert: Json;

const mm = (value: number) => Math.round(value * 1e6);
const typed = (text: string) => ({ text, unit: 'mm' });

const lathe = (rest: object = {}) => ({
  id: scene.lathe,
  name: 'Bench 1',
  dial_um_per_mark: 25.4,
  dial_sd_um: 5,
  mount_runout_um: 30,
  arbor_diameter_nm: mm(25),
  thread_start_nm: mm(90),
  tip_nm: mm(140),
  nut_engagement_nm: mm(15),
  approach_nm: mm(6),
  speeds_rpm: [100, 150],
  feeds_mm_per_rev: [0.05, 0.1, 0.15],
  note: '',
  active: true,
  ...rest,
});

const piece = (kind: string, name: string, length: number, rest: object = {}) => ({
  id: newId(),
  name,
  kind,
  hook: name,
  unit: 'mm',
  bore_nm: mm(25),
  length_nm: mm(length),
  note: '',
  active: true,
  ...rest,
});
const ring = { ring_inner_nm: mm(100), ring_outer_nm: mm(130), cup_depth_nm: mm(30), cup_bore_nm: mm(75) };
const cone = { small_nm: mm(55), large_nm: mm(65) };

const hang = (body: Json): Promise<Json> => shop.want('PUT', `/pieces/${body.id}${as}`, body);

/** A stack of its own, from the shoulder outward. */
const hangStack = async (): Promise<Json[]> => {
  const pieces = [
    piece('clamp', 'C1', 35, ring),
    piece('spring', 'S1', 20, { solid_nm: mm(10), free_nm: mm(35) }),
    piece('cone', 'K1', 20, cone),
    piece('clamp', 'C2', 35, ring),
    piece('spacer', 'R1', 20),
    piece('nut', 'N1', 20),
  ];
  for (const one of pieces) await hang(one);
  return pieces;
};

const takeDown = async (pieces: readonly Json[]) => {
  for (const one of pieces) await hang({ ...one, active: false });
};

/** Measured and decided to be cut: 21.6 mm with a wave of 0.04 mm. */
const decidedJob = async (mean = 21.6): Promise<Json> => {
  const opened = await openJob(shop, scene, ['left']);
  const part = opened.parts[0];
  await shop.want('PUT', `/jobs/${opened.job.id}/parts/${part.id}${as}`, {
    ...part,
    outer_diameter: typed('280'),
    seat: {
      ring_inner: typed('160'),
      bore: typed('60'),
      flange: typed('7'),
      flat_inner: typed('80'),
      flat_outer: typed('140'),
    },
  });
  await shop.want('POST', `/jobs/${opened.job.id}/findings${as}`, {
    id: newId(),
    part_id: part.id,
    kind: 'nothing_found',
    judgement: 'noted',
    note: '',
  });
  await addRound(shop, scene, opened.job.id, part.id, round(mean, 0.02));
  const decision = { id: newId(), action: 'cut', reason: 'as the class was told' };
  await shop.want('POST', `/jobs/${opened.job.id}/decisions${as}`, decision);
  return shop.want('GET', `/jobs/${opened.job.id}`);
};

const at = (file: Json, what: string) => `/jobs/${file.job.id}/parts/${file.parts[0].id}/${what}`;
const post = (file: Json, what: string, body: Json) =>
  shop.want('POST', `/jobs/${file.job.id}/${what}${as}`, { id: newId(), part_id: file.parts[0].id, ...body });
const refused = (file: Json, what: string, body: Json) =>
  shop.refusal('POST', `/jobs/${file.job.id}/${what}${as}`, { id: newId(), part_id: file.parts[0].id, ...body });

const pass = (outboard_marks: number, inboard_marks: number, rest: object = {}) => ({
  outboard_marks,
  inboard_marks,
  rpm: 100,
  feed_mm_per_rev: 0.1,
  ...rest,
});

const waitsFor = async (file: Json) => (await shop.want('GET', `/jobs/${file.job.id}/assessment`)).waits_for;

beforeAll(async () => {
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  as = `?by_person_id=${scene.by}`;
  await shop.want('PUT', `/lathes/${scene.lathe}${as}`, lathe());
  insert = { id: newId(), name: 'Insert 1', nose_radius_nm: 400_000, max_speed_m_per_min: 120, corners: 3, note: '' };
  insert = await shop.want('PUT', `/inserts/${insert.id}${as}`, { ...insert, active: true });
});
afterAll(async () => {
  await shop.stop();
});

describe('mount and cut', () => {
  test('a job goes from the pegboard to the sealed record', async () => {
    const pieces = await hangStack();
    const file = await decidedJob();
    expect(await waitsFor(file)).toBe('mount');

    const advice = await shop.want('GET', `${at(file, 'stacks')}?count=1`);
    expect(advice.missing).toEqual([]);
    expect(advice.stacks).toHaveLength(1);
    expect(advice.stacks[0].length_mm).toBeCloseTo(97, 9);
    expect(new Set(advice.stacks[0].pieces)).toEqual(new Set(pieces.map((one) => one.id)));
    const mounted = await post(file, 'mounts', {
      lathe_id: scene.lathe,
      piece_ids: advice.stacks[0].pieces,
      reason: '',
    });
    expect(mounted.why).toEqual(advice.stacks[0].why);
    const board = await shop.want('GET', '/pegboard');
    expect(board.filter((line: Json) => line.state === 'in_use')).toHaveLength(6);

    await post(file, 'mount-proofs', {
      kind: 'indicator',
      trace_um: [0, 0, 0, 0],
      marks: [],
      goes_on: true,
      reason: '',
    });
    expect(await waitsFor(file)).toBe('plan');
    const plan = await shop.want('GET', at(file, 'plan'));
    expect(plan).toMatchObject({ missing: [], refusal: null, warnings: [], basis: null });
    const { cleanup } = (await shop.want('GET', `/jobs/${file.job.id}/assessment`)).verdict.parts[0];
    expect(plan.needed_outboard_um).toBeCloseTo(cleanup.outboard_cut_um, 9);
    expect(plan.needed_inboard_um).toBeCloseTo(cleanup.inboard_cut_um, 9);
    const passes = plan.passes.map(({ outboard_marks, inboard_marks, rpm, feed_mm_per_rev }: Json) => ({
      outboard_marks,
      inboard_marks,
      rpm,
      feed_mm_per_rev,
    }));
    expect(await shop.want('POST', at(file, 'foresight'), { passes })).toEqual(plan);
    const settled = await post(file, 'cut-plans', { lathe_id: scene.lathe, insert_id: insert.id, passes });
    expect(settled).toMatchObject({ by_hand: false, final_mm: plan.final_mm, passes: plan.passes });
    expect(await waitsFor(file)).toBe('cut');

    for (const one of passes) {
      const [began_at, ended_at] = ['2026-03-04T09:00:00.000Z', '2026-03-04T09:07:00.000Z'];
      await post(file, 'passes', { ...one, plan_id: settled.id, outcome: 'finished', began_at, ended_at, note: '' });
    }
    expect((await shop.want('GET', at(file, 'plan'))).passes).toEqual([]);
    await post(file, 'cuts', { outboard_marks: 2, inboard_marks: 2, note: '' });
    expect(await waitsFor(file)).toBe('finish');
    expect(await shop.refusal('POST', `/jobs/${file.job.id}/seal${as}`)).toMatchObject({ code: 'not_finished' });
    for (const step of ['washed', 'cloth_white']) {
      await post(file, 'bench-steps', { phase: 'finish', step, pass: 0, event: 'done', detail: '' });
    }
    expect(await waitsFor(file)).toBe('readings_after');
    await putPlan(shop, scene, file.job.id, file.parts[0].id, 'after');
    const left = 21.6 - (4 * 0.0254 - 0.02);
    await addRound(shop, scene, file.job.id, file.parts[0].id, round(left, 0.001), { stage: 'after', confirmed: true });
    const assessed = await shop.want('GET', `/jobs/${file.job.id}/assessment`);
    expect(assessed.waits_for).toBe('seal');
    expect(assessed.parts[0].dial_check).toMatchObject({ agrees: true });
    expect(assessed.parts[0].dial_check.sum.dialled_um).toBeCloseTo(4 * 25.4, 9);
    const diagnosed = (await shop.want('GET', `/jobs/${file.job.id}/diagnosis`)).parts[0];
    expect(diagnosed.missing).toEqual([]);
    expect(diagnosed.signs.map((one: Json) => one.sign)).toEqual(
      expect.arrayContaining(['variation_um', 'dial_difference_um']),
    );
    expect(diagnosed.found.causes).toHaveLength(15);
    expect(diagnosed.found.next_check.gain_bits).toBeGreaterThan(0);
    await shop.want('POST', `/jobs/${file.job.id}/seal${as}`);

    const study = await shop.want('GET', `/lathes/${scene.lathe}/study`);
    expect(study).toMatchObject({ lathe_id: scene.lathe, mount: null });
    expect(study.study).toMatchObject({ jobs: 1, needs: 4, mean: null });
    expect(study.jobs).toMatchObject([{ job_id: file.job.id, outboard_marks: 2, inboard_marks: 2 }]);
    for (const one of pieces) {
      const body = { id: newId(), piece_id: one.id, kind: 'returned', job_id: file.job.id, note: '' };
      await shop.want('POST', `/bookings${as}`, body);
    }
    await takeDown(pieces);
  });

  test('a pegboard that does not carry the part says what misses by its name', async () => {
    const pieces = await hangStack();
    await hang({ ...pieces[2], large_nm: mm(58) });
    const file = await decidedJob();
    const { stacks, nearest } = await shop.want('GET', at(file, 'stacks'));
    expect(stacks).toEqual([]);
    expect(nearest[0].rule).toBe('cone');
    expect(nearest[0].text).toContain('cone K1 takes bores');
    await takeDown(pieces);
  });

  test('a rule that leaves no plan is an answer, not an error', async () => {
    const file = await decidedJob();
    await shop.want('PUT', `/inserts/${insert.id}${as}`, { ...insert, max_speed_m_per_min: 20 });
    const { refusal, passes } = await shop.want('GET', `${at(file, 'plan')}?insert_id=${insert.id}`);
    expect(refusal.error).toMatchObject({ code: 'no_plan', field: 'insert.max_speed_m_per_min' });
    expect(passes).toEqual([]);
    await shop.want('PUT', `/inserts/${insert.id}${as}`, insert);
  });

  test('nobody settles on passes that leave too little', async () => {
    const file = await decidedJob(20.9);
    const settle = (marks: number) =>
      refused(file, 'cut-plans', { lathe_id: scene.lathe, insert_id: null, passes: [pass(marks, marks)] });
    expect(await settle(10)).toMatchObject({ status: 409, code: 'below_machine_to', field: 'passes' });
    expect(await settle(20)).toMatchObject({ status: 409, code: 'below_discard', field: 'passes' });
  });
});

describe('bad input at the bench', () => {
  test.each<[string, object, string]>([
    ['a tip before the thread', { tip_nm: mm(80) }, 'tip_nm'],
    ['a nut longer than its thread', { nut_engagement_nm: mm(50) }, 'nut_engagement_nm'],
    ['a feed of zero', { feeds_mm_per_rev: [0, 0.1] }, 'feeds_mm_per_rev[0]'],
    ['a speed twice', { speeds_rpm: [100, 100] }, 'speeds_rpm[1]'],
    ['speeds out of order', { speeds_rpm: [150, 100] }, 'speeds_rpm[1]'],
  ])('%s is refused by its field', async (_what, rest, field) => {
    const answer = await shop.refusal('PUT', `/lathes/${scene.lathe}${as}`, lathe(rest));
    expect(answer).toMatchObject({ status: 422, field });
  });

  test.each<[string, object, string]>([
    ['a cone upside down', { small_nm: mm(65), large_nm: mm(55) }, 'small_nm'],
    ['a cone without its ends', { small_nm: null, large_nm: null }, 'small_nm'],
    ['a bore of nothing', { ...cone, bore_nm: 0 }, 'bore_nm'],
    ['a cone that damps', { ...cone, damping: true }, 'damping'],
  ])('%s is refused by its field', async (_what, rest, field) => {
    const body = piece('cone', 'K9', 20, rest);
    expect(await shop.refusal('PUT', `/pieces/${body.id}${as}`, body)).toMatchObject({ status: 422, field });
  });

  test('one piece twice in a stack is refused by its place', async () => {
    const pieces = await hangStack();
    const file = await decidedJob();
    const ids = pieces.map((one) => one.id);
    const mount = (piece_ids: string[]) => refused(file, 'mounts', { lathe_id: scene.lathe, piece_ids, reason: '' });
    expect(await mount([...ids, ids[0] as string])).toMatchObject({
      status: 422,
      code: 'duplicate_id',
      field: 'piece_ids[6]',
    });
    expect(await mount([])).toMatchObject({ status: 422, field: 'piece_ids' });
    expect(await mount([newId()])).toMatchObject({ status: 404, field: 'piece_ids[0]' });
    expect(await mount([...ids].reverse())).toMatchObject({ status: 409, code: 'breaks_a_rule' });
    await takeDown(pieces);
  });

  test.each<[string, object, string]>([
    ['a feed of zero', { feed_mm_per_rev: 0 }, 'passes[0].feed_mm_per_rev'],
    ['a speed of zero', { rpm: 0 }, 'passes[0].rpm'],
    ['fewer marks than none', { outboard_marks: -1 }, 'passes[0].outboard_marks'],
    ['half a mark', { inboard_marks: 0.5 }, 'passes[0].inboard_marks'],
  ])('%s in a pass is refused by its field', async (_what, rest, field) => {
    const file = await decidedJob();
    const passes = [pass(2, 2, rest)];
    expect(await shop.refusal('POST', at(file, 'foresight'), { passes })).toMatchObject({ status: 422, field });
    const settled = { lathe_id: scene.lathe, insert_id: null, passes };
    expect(await refused(file, 'cut-plans', settled)).toMatchObject({ status: 422, field });
  });

  test('what there is not is not found', async () => {
    const file = await decidedJob();
    for (const path of [
      `/jobs/${newId()}/parts/${file.parts[0].id}/plan`,
      `/jobs/${file.job.id}/parts/${newId()}/plan`,
      `/jobs/${file.job.id}/parts/${newId()}/stacks`,
      `${at(file, 'plan')}?insert_id=${newId()}`,
      `/lathes/${newId()}/study`,
    ]) {
      expect((await shop.refusal('GET', path)).status).toBe(404);
    }
    expect(await shop.refusal('GET', `${at(file, 'stacks')}?count=0`)).toMatchObject({ status: 422, field: 'count' });
  });
});
