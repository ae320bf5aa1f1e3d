import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { limit, openJob, type Scene, setScene } from './scene';
import { freshFolder, type Json, newId, Served } from './shop';

let shop: Served;
let scene: Scene;
let as: string;
let gauge: string;
let insert: Json;

/** Limits of the drum of TM 9-2320-289: 11.15 in new, 11.21 in after a cut, 11.24 in scrap. */
const limits = {
  nominal: limit('283.21'),
  machine_to: limit('284.734'),
  discard: limit('285.496'),
  out_of_round: limit('0.076', 'service_information'),
};

const drum = (side = 'left', rest: object = {}) => ({
  id: newId(),
  side,
  construction: 'integral_hub',
  vented: false,
  kind: 'drum',
  band_width: { text: '60', unit: 'mm' },
  limits,
  ...rest,
});

const newJob = (parts: readonly object[], rest: object = {}) => ({
  job: {
    id: newId(),
    brought_by: 'Mr Lindqvist',
    vehicle: 'grey saloon',
    complaint: 'noise',
    complaint_note: '',
    axle: 'rear',
    odometer_unit: 'km',
    lathe_id: scene.lathe,
    ...rest,
  },
  parts,
});

const open = (parts: readonly object[], rest: object = {}): Promise<Json> =>
  shop.want('POST', `/jobs${as}`, newJob(parts, rest));
const notOpened = (parts: readonly object[]): Promise<Json> => shop.refusal('POST', `/jobs${as}`, newJob(parts));

const diameter = (part: string, depth: number, point: number, text: string, rest: object = {}) => ({
  id: newId(),
  part_id: part,
  stage: 'before',
  quantity: 'diameter',
  circle: depth,
  point,
  text,
  default_unit: 'mm',
  instrument_id: gauge,
  ...rest,
});

/** Four diameters at both edges, oval by so much. */
const gaugeDrum = async (file: Json, part: Json, mean_mm: number, oval_mm: number, rest: object = {}) => {
  for (const depth of [0, 1]) {
    for (const point of [0, 1, 2, 3]) {
      const ends = [0.5, 0, -0.5, 0][point] ?? 0;
      const text = (mean_mm + ends * oval_mm).toFixed(3);
      await shop.want(
        'POST',
        `/jobs/${file.job.id}/readings${as}`,
        diameter(part.id, depth, point, text, { confirmed: true, ...rest }),
      );
    }
  }
};

const post = (file: Json, what: string, body: Json, part = 0) =>
  shop.want('POST', `/jobs/${file.job.id}/${what}${as}`, { id: newId(), part_id: file.parts[part].id, ...body });
const assessed = (file: Json) => shop.want('GET', `/jobs/${file.job.id}/assessment`);

beforeAll(async () => {
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  as = `?by_person_id=${scene.by}`;
  const lathe = (await shop.want('GET', '/shop')).lathes[0];
  await shop.want('PUT', `/lathes/${scene.lathe}${as}`, {
    ...lathe,
    approach_nm: 6_000_000,
    speeds_rpm: [100, 150],
    feeds_mm_per_rev: [0.05, 0.1],
  });
  gauge = newId();
  await shop.want('PUT', `/instruments/${gauge}${as}`, {
    id: gauge,
    name: 'Drum gauge 1',
    kind: 'drum_gauge',
    serial: 'D-1',
    resolution_nm: 10_000,
    mpe_nm: 10_000,
    repeatability_nm: 5000,
    default_unit: 'mm',
    active: true,
  });
  insert = { id: newId(), name: 'Insert 1', nose_radius_nm: 400_000, max_speed_m_per_min: 160, corners: 3, note: '' };
  await shop.want('PUT', `/inserts/${insert.id}${as}`, { ...insert, active: true });
});
afterAll(async () => {
  await shop.stop();
});

describe('drums', () => {
  test('a pair goes from intake, beside the discs of the front axle, to the sealed job', async () => {
    const front = await openJob(shop, scene);
    const file = await open([drum('left'), drum('right')], { beside_job_id: front.job.id });
    expect(file.job.beside_job_id).toBe(front.job.id);
    expect(file.plans[0]).toMatchObject({
      points: 4,
      circles_from_edge_nm: [10_000_000, 50_000_000],
      runout_place: 'on_arbor',
    });
    const vehicle = await shop.want('GET', `/jobs?vehicle_of=${front.job.id}`);
    expect(vehicle.lines.map((line: Json) => line.job.id).sort()).toEqual([front.job.id, file.job.id].sort());

    for (const part of [0, 1]) {
      await post(file, 'findings', { kind: 'nothing_found', judgement: 'noted', note: '' }, part);
      await gaugeDrum(file, file.parts[part], part === 0 ? 284 : 284.2, 0.2);
    }
    const before = await assessed(file);
    expect(before.waits_for).toBe('decision');
    expect(before.parts[0].progress_before).toMatchObject({
      diameter_done: 8,
      diameter_wanted: 8,
      thickness_wanted: 0,
    });
    expect(before.parts[0].before.thickness).toBeNull();
    expect(before.parts[0].before.diameter.out_of_round_mm).toBeCloseTo(0.2, 9);
    expect(before.verdict).toBeNull();
    expect(before.drums).toMatchObject({ action: 'cut', plans: null, cuts: null });
    expect(before.drums.parts[0].cut_on_radius_um).toBeCloseTo(110, 6);
    expect(before.drums.parts[0].change_on_diameter_um).toBeCloseTo(220, 6);

    const decided = await shop.want('POST', `/jobs/${file.job.id}/decisions${as}`, {
      id: newId(),
      action: 'cut',
      reason: '',
    });
    expect(decided.computed).toMatchObject({ action: 'cut' });

    // The right drum comes to 284.1 + 5 marks on the radius, 284.354 mm; the left one, from 283.9 mm, takes 9 marks to
    // that size, and is left at 284.3572 mm, to which the right one has its whole marks counted then.
    for (const [place, marks] of [9, 5].entries()) {
      const at = `/jobs/${file.job.id}/parts/${file.parts[place].id}`;
      const plan = await shop.want('GET', `${at}/plan`);
      expect(plan).toMatchObject({ missing: [], refusal: null, start_min_mm: null, needed_inboard_um: 0 });
      expect(plan.pair_mm).toBeCloseTo(place === 0 ? 284.354 : 284.3572, 9);
      const total = plan.passes.reduce((sum: number, pass: Json) => sum + pass.outboard_marks, 0);
      expect(total).toBe(marks);
      for (const pass of plan.passes) {
        expect(pass.depth_on_radius_um).toBeCloseTo(pass.outboard_marks * 25.4, 9);
        expect(pass.change_on_diameter_um).toBeCloseTo(pass.outboard_marks * 50.8, 9);
      }
      const passes = plan.passes.map(({ outboard_marks, inboard_marks, rpm, feed_mm_per_rev }: Json) => ({
        outboard_marks,
        inboard_marks,
        rpm,
        feed_mm_per_rev,
      }));
      expect(await shop.want('POST', `${at}/foresight`, { passes })).toEqual(plan);
      const settled = await post(file, 'cut-plans', { lathe_id: scene.lathe, insert_id: insert.id, passes }, place);
      expect(settled).toMatchObject({ by_hand: false, final_mm: plan.final_mm });
      for (const one of passes) {
        const [began_at, ended_at] = ['2026-03-04T09:00:00.000Z', '2026-03-04T09:07:00.000Z'];
        const cut = { ...one, plan_id: settled.id, outcome: 'finished', began_at, ended_at, note: '' };
        await post(file, 'passes', cut, place);
      }
      await post(file, 'cuts', { outboard_marks: marks, inboard_marks: 0, note: '' }, place);
      for (const step of ['washed', 'cloth_white']) {
        await post(file, 'bench-steps', { phase: 'finish', step, pass: 0, event: 'done', detail: '' }, place);
      }
    }
    expect((await assessed(file)).waits_for).toBe('readings_after');
    for (const part of file.parts) await gaugeDrum(file, part, 284.354, 0.002, { stage: 'after' });
    const after = await assessed(file);
    expect(after.waits_for).toBe('seal');
    expect(after.parts[0]).toMatchObject({ check: null, dial_check: null, drum_check: { outcome: 'pass' } });
    expect(after.parts[0].drum_check.taken_mean_um).toBeCloseTo(354, 6);
    expect(after.parts[0].drum_check.planned_on_radius_um).toBeCloseTo(9 * 25.4, 9);
    await shop.want('POST', `/jobs/${file.job.id}/seal${as}`);
    expect((await shop.want('GET', `/jobs/${file.job.id}`)).job.state).toBe('sealed');
  });

  test('limits of the other kind, in the wrong order or in inches are refused by name', async () => {
    const disc = { nominal: limit('22'), machine_to: limit('20.6'), discard: limit('20') };
    expect(await notOpened([drum('left', { limits: disc })])).toMatchObject({
      code: 'out_of_range',
      field: 'parts[0].limits.nominal.value.text',
    });
    expect(await notOpened([drum('left', { kind: null, band_width: null })])).toMatchObject({ code: 'out_of_range' });
    expect(await notOpened([drum('left', { limits: { ...limits, discard: limit('284') } })])).toMatchObject({
      code: 'limits_disagree',
      field: 'parts[0].limits.machine_to.value.text',
    });
    const inches = await notOpened([drum('left', { limits: { ...limits, discard: limit('11.24') } })]);
    expect(inches.message).toContain('inches');
    expect(await notOpened([drum('left', { limits: { ...limits, variation: limit('0.015') } })])).toMatchObject({
      code: 'other_kind',
    });
  });

  test('a job is of one kind', async () => {
    const disc = { id: newId(), side: 'right', construction: 'hubless', vented: true, limits: {} };
    expect(await notOpened([drum('left'), disc])).toMatchObject({ code: 'other_kind', field: 'parts[1].kind' });
  });

  test('odd diameters are questioned, and a thickness is not read of a drum', async () => {
    const file = await open([drum()]);
    const refused = (text: string, rest: object = {}) =>
      shop.refusal('POST', `/jobs/${file.job.id}/readings${as}`, diameter(file.parts[0].id, 0, 0, text, rest));
    expect((await refused('2840')).doubts).toMatchObject([{ code: 'ten_times' }]);
    expect((await refused('11.18')).doubts).toMatchObject([{ code: 'other_unit' }]);
    expect((await refused('285.6')).doubts).toMatchObject([{ code: 'over_discard' }]);
    expect(await refused('22', { quantity: 'thickness' })).toMatchObject({ code: 'other_kind' });
    expect(await refused('284', { circle: 2 })).toMatchObject({ code: 'out_of_range', field: 'circle' });
  });

  test('one tool cuts a drum, and nobody opens it beyond its limits', async () => {
    const file = await open([drum()]);
    await post(file, 'findings', { kind: 'nothing_found', judgement: 'noted', note: '' });
    await gaugeDrum(file, file.parts[0], 284, 0.2);
    await shop.want('POST', `/jobs/${file.job.id}/decisions${as}`, { id: newId(), action: 'cut', reason: '' });
    const pass = (outboard_marks: number, inboard_marks = 0) => ({
      outboard_marks,
      inboard_marks,
      rpm: 100,
      feed_mm_per_rev: 0.1,
    });
    const settle = (passes: readonly object[]) =>
      shop.refusal('POST', `/jobs/${file.job.id}/cut-plans${as}`, {
        id: newId(),
        part_id: file.parts[0].id,
        lathe_id: scene.lathe,
        insert_id: insert.id,
        passes,
      });
    expect(await settle([pass(1, 1)])).toMatchObject({ code: 'other_kind', field: 'passes[0].inboard_marks' });
    expect(await settle([pass(17)])).toMatchObject({ code: 'over_machine_to' });
    expect(await settle([pass(32)])).toMatchObject({ code: 'over_discard' });
  });
});
