import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addRound, newJob, openJob, putPlan, reading, round, type Scene, setScene } from './scene';
import { freshFolder, type Json, newId, Served } from './shop';

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

describe('a job', () => {
  test('goes from the door to a sealed record', async () => {
    const opened = await openJob(shop, scene, ['left']);
    const { id } = opened.job;
    const part = opened.parts[0];
    expect(opened.job).toMatchObject({ state: 'open', vehicle: 'grey saloon, front axle', version: 1 });
    expect(part.limits.machine_to.value).toEqual({ text: '20.6', unit: 'mm', nm: 20_600_000, resolution_nm: 100_000 });

    await shop.want('POST', `/zero-checks${as}`, {
      id: newId(),
      instrument_id: scene.micrometer,
      text: '0.000',
      default_unit: 'mm',
      job_id: id,
    });
    await shop.want('POST', `/jobs/${id}/findings${as}`, {
      id: newId(),
      part_id: part.id,
      kind: 'nothing_found',
      judgement: 'noted',
      note: '',
    });
    await addRound(shop, scene, id, part.id, round(21.6, 0.02));
    await addRound(shop, scene, id, part.id, round(0.03, 0.03), {
      quantity: 'runout_outboard',
      instrument_id: scene.dial,
    });
    for (const quantity of ['scoring_outboard', 'scoring_inboard']) {
      await shop.want(
        'POST',
        `/jobs/${id}/readings${as}`,
        reading(scene, part.id, 0, '0.05', { quantity, instrument_id: null }),
      );
    }

    const judged = await shop.want('GET', `/jobs/${id}/assessment`);
    const thickness = judged.parts[0].before.thickness;
    expect(thickness.variation_mm).toBeCloseTo(0.04, 6);
    expect(thickness.min_mm).toBeCloseTo(21.58, 6);
    expect(judged.verdict.action).toBe('cut');
    expect(judged.waits_for).toBe('decision');

    const decision = { id: newId(), action: 'cut', reason: '' };
    const decided = await shop.want('POST', `/jobs/${id}/decisions${as}`, decision);
    expect(decided).toMatchObject({ computed_action: 'cut', action: 'cut', by_person_id: scene.by });
    expect(await shop.want('POST', `/jobs/${id}/decisions${as}`, decision)).toEqual(decided);

    await shop.want('POST', `/jobs/${id}/cuts${as}`, {
      id: newId(),
      part_id: part.id,
      outboard_marks: 6,
      inboard_marks: 6,
      note: '',
    });
    await putPlan(shop, scene, id, part.id, 'after');
    await addRound(shop, scene, id, part.id, round(21.29, 0.002), { stage: 'after' });
    for (const quantity of ['roughness_outboard', 'roughness_inboard']) {
      const body = reading(scene, part.id, 0, '1.8 um', { quantity, stage: 'after', instrument_id: null });
      await shop.want('POST', `/jobs/${id}/readings${as}`, body);
    }
    const after = await shop.want('GET', `/jobs/${id}/assessment`);
    expect(after.parts[0].after.thickness.mean_mm).toBeCloseTo(21.29, 3);
    expect(after.parts[0].check).not.toBeNull();

    for (const paper of ['a4', 'letter']) {
      const pdf = await shop.want('GET', `/jobs/${id}/record.pdf?paper=${paper}`);
      expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    }
    expect((await shop.want('GET', `/jobs/${id}/record.svg?sheet=1`)).toString()).toContain('<svg');
    expect((await shop.want('GET', `/jobs/${id}/record.png?sheet=1`)).subarray(1, 4).toString()).toBe('PNG');

    const sealed = await shop.want('POST', `/jobs/${id}/seal${as}`);
    expect(sealed.state).toBe('sealed');
    expect(sealed.seal_sha256).toMatch(/^[0-9a-f]{64}$/);

    const late = await shop.refusal(
      'POST',
      `/jobs/${id}/readings${as}`,
      reading(scene, part.id, 0, '21.3', { stage: 'after' }),
    );
    expect(late.status).toBe(409);
    const amendment = { id: newId(), text: 'The owner came back content.', subject_id: null };
    expect(await shop.want('POST', `/jobs/${id}/amendments${as}`, amendment)).toMatchObject({ text: amendment.text });
    expect((await shop.want('GET', `/jobs/${id}`)).job.seal_sha256).toBe(sealed.seal_sha256);
  });

  test('keeps the text of a reading as it was typed, in inches too', async () => {
    const { job, parts } = await openJob(shop, scene, ['left']);
    const stored = await shop.want(
      'POST',
      `/jobs/${job.id}/readings${as}`,
      reading(scene, parts[0].id, 0, '.836"', { confirmed: true }),
    );
    expect(stored.value).toEqual({ text: '.836"', unit: 'in', nm: 21_234_400, resolution_nm: 25_400 });
  });

  test('supersedes a reading, takes it back, and forgets neither', async () => {
    const { job, parts } = await openJob(shop, scene, ['left']);
    const [first] = await addRound(shop, scene, job.id, parts[0].id, ['21.500']);
    const second = await shop.want(
      'POST',
      `/jobs/${job.id}/readings${as}`,
      reading(scene, parts[0].id, 0, '21.520', { supersedes_id: first.id }),
    );
    const states = async () => {
      const { readings } = await shop.want('GET', `/jobs/${job.id}`);
      return readings.map(({ id, state }: Json) => [id, state]);
    };
    expect(await states()).toEqual([
      [first.id, 'superseded'],
      [second.id, 'current'],
    ]);
    await shop.want('POST', `/jobs/${job.id}/readings/${second.id}/withdraw${as}`);
    expect(await states()).toEqual([
      [first.id, 'current'],
      [second.id, 'withdrawn'],
    ]);
  });

  test('questions a reading that looks wrong and keeps it only when confirmed', async () => {
    const { job, parts } = await openJob(shop, scene, ['left']);
    await addRound(shop, scene, job.id, parts[0].id, ['21.50', '21.51', '21.50']);
    const ask = async (text: string, rest: object = {}) =>
      shop.refusal('POST', `/jobs/${job.id}/readings${as}`, reading(scene, parts[0].id, 3, text, rest));
    const turn = await ask('22.00');
    expect(turn.code).toBe('doubtful_reading');
    expect(turn.doubts.map(({ code }: Json) => code)).toContain('lost_turn');
    expect((await ask('0.846')).doubts.map(({ code }: Json) => code)).toContain('other_unit');
    expect((await ask('-1')).doubts.map(({ code }: Json) => code)).toContain('below_zero');
    expect((await shop.want('GET', `/jobs/${job.id}`)).readings).toHaveLength(3);
    const kept = reading(scene, parts[0].id, 3, '22.00', { confirmed: true });
    expect((await shop.want('POST', `/jobs/${job.id}/readings${as}`, kept)).confirmed_doubts).toContain('lost_turn');
  });

  test('may not be cut at or under its discard thickness, whoever asks', async () => {
    const { job, parts } = await openJob(shop, scene, ['left']);
    await addRound(shop, scene, job.id, parts[0].id, round(19.9, 0.01), { confirmed: true });
    expect((await shop.want('GET', `/jobs/${job.id}/assessment`)).verdict.action).toBe('replace');
    const cut = await shop.refusal('POST', `/jobs/${job.id}/decisions${as}`, {
      id: newId(),
      action: 'cut',
      reason: 'I want to',
    });
    expect(cut).toMatchObject({ status: 409, code: 'below_discard' });
  });

  test('takes a decision against the verdict only with a reason', async () => {
    const { job, parts } = await openJob(shop, scene, ['left']);
    await addRound(shop, scene, job.id, parts[0].id, round(19.9, 0.01), { confirmed: true });
    const without = await shop.refusal('POST', `/jobs/${job.id}/decisions${as}`, {
      id: newId(),
      action: 'leave',
      reason: '',
    });
    expect(without.code).toBe('reason_needed');
  });

  test('is found by its words, and by its number', async () => {
    const body = newJob(scene, ['left']);
    body.job.vehicle = 'Kornblumenblau estate';
    const { job } = await shop.want('POST', `/jobs${as}`, body);
    const page = await shop.want('GET', '/jobs?words=kornblumen%20lindqvist');
    expect(page.lines.map((line: Json) => line.job.id)).toEqual([job.id]);
    expect((await shop.want('GET', `/jobs/${job.number}`)).job.id).toBe(job.id);
  });

  test('is opened once however often it is sent', async () => {
    const body = newJob(scene, ['left']);
    const first = await shop.want('POST', `/jobs${as}`, body);
    expect(await shop.want('POST', `/jobs${as}`, body)).toEqual(first);
  });

  test('tells the second of two tablets that change the same thing what stands now', async () => {
    const { job } = await openJob(shop, scene, ['left']);
    await shop.want('PUT', `/jobs/${job.id}${as}`, { ...job, vehicle: 'first' });
    const second = await shop.refusal('PUT', `/jobs/${job.id}${as}`, { ...job, vehicle: 'second' });
    expect(second).toMatchObject({ status: 409, code: 'changed_meanwhile', current: { vehicle: 'first' } });
  });

  test('has a journal without a gap, oldest first', async () => {
    const { job, parts } = await openJob(shop, scene, ['left']);
    await addRound(shop, scene, job.id, parts[0].id, ['21.5', '21.5']);
    const changes: Json[] = await shop.want('GET', `/jobs/${job.id}/changes`);
    expect(changes.filter(({ kind }) => kind === 'reading.added')).toHaveLength(2);
    expect(changes.every(({ job_id }) => job_id === job.id)).toBe(true);
    expect(changes.map(({ seq }) => seq)).toEqual([...changes.map(({ seq }) => seq)].sort((a, b) => a - b));
  });
});

describe('the shop', () => {
  test('says what it has and that it is well', async () => {
    const view = await shop.want('GET', '/shop');
    expect(view.people.map(({ name }: Json) => name)).toContain('Ada Stone');
    expect(view.settings.demo).toBe(false);
    expect(await shop.want('GET', '/health')).toMatchObject({ store: 'ok' });
  });

  test('remembers parts that it has met', async () => {
    const id = newId();
    const part = { id, name: 'saloon front, vented, 22 mm', limits: {}, vented: true };
    await shop.want('PUT', `/known-parts/${id}${as}`, part);
    const found: Json[] = await shop.want('GET', '/known-parts?words=saloon%20vented');
    expect(found.map((known) => known.id)).toContain(id);
  });

  test('opens a practice job that is ready to look at', async () => {
    const file = await shop.want('POST', `/practice-job${as}`);
    expect(file.job.complaint).toBe('practice');
    expect(file.readings.length).toBeGreaterThanOrEqual(8);
    const judged = await shop.want('GET', `/jobs/${file.job.id}/assessment`);
    expect(judged.verdict).not.toBeNull();
  });

  test('changes its settings once for each version', async () => {
    const { settings } = await shop.want('GET', '/shop');
    const changed = await shop.want('PUT', `/shop/settings${as}`, { ...settings, shop_name: 'Quarry Lane' });
    expect(changed.shop_name).toBe('Quarry Lane');
    expect((await shop.refusal('PUT', `/shop/settings${as}`, { ...settings, shop_name: 'x' })).status).toBe(409);
  });
});
