import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addRound, limit, limits, openJob, round, type Scene, setScene } from './scene';
import { freshFolder, type Json, newId, Served } from './shop';

let shop: Served;
let scene: Scene;
let as: string;

const typed = (text: string) => ({ text, unit: 'mm' });
const rad = Math.PI / 180;

beforeAll(async () => {
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  as = `?by_person_id=${scene.by}`;
});
afterAll(async () => {
  await shop.stop();
});

/** A left part with studs and sizes on a car that is known. */
const carJob = async (part: object = {}, job: object = {}): Promise<Json> => {
  const opened = await openJob(shop, scene, ['left']);
  await shop.want('PUT', `/jobs/${opened.job.id}/parts/${opened.parts[0].id}${as}`, {
    ...opened.parts[0],
    vented: false,
    studs: 4,
    outer_diameter: typed('290'),
    hub_reading_diameter: typed('130'),
    seat: { ring_inner: typed('160') },
    limits: { ...limits, runout: limit('0.05', 'service_information') },
    ...part,
  });
  const file = await shop.want('GET', `/jobs/${opened.job.id}`);
  await shop.want('PUT', `/jobs/${file.job.id}${as}`, {
    ...file.job,
    tyre: '205/55 R16',
    vehicle_mass_kg: 1500,
    felt_in: 'pedal',
    felt_speed_km_per_h: 90,
    ...job,
  });
  return shop.want('GET', `/jobs/${file.job.id}`);
};

/** Runout round the disc, 8 points: hub high at 0 degrees by 30 um, part high at its own 0 degrees by 20 um. */
const readFitted = (file: Json, turned: number, hub = 0.03, part = 0.02) => {
  const turn = 90 * turned;
  const texts = Array.from({ length: 8 }, (_, k) =>
    (hub * Math.cos(45 * k * rad) + part * Math.cos((45 * k - turn) * rad)).toFixed(3),
  );
  return addRound(shop, scene, file.job.id, file.parts[0].id, texts, {
    stage: 'on_car',
    quantity: 'runout_outboard',
    circle: turned,
    instrument_id: scene.dial,
    confirmed: true,
  });
};

const refitAdvice = (file: Json) => shop.want('GET', `/jobs/${file.job.id}/parts/${file.parts[0].id}/refit`);
const codes = (advice: Json[]) => advice.map((one) => one.code);

describe('back on its hub', () => {
  test('an untouched job says what is missing and what to read first', async () => {
    const opened = await openJob(shop, scene, ['left']);
    const known = await refitAdvice(opened);
    expect(known.evidence).toBe('nothing');
    expect(known.missing).toEqual(expect.arrayContaining(['part.studs', 'part.outer_diameter']));
    expect(codes(known.next)).toEqual(['read_bearing_play', 'count_studs', 'read_part']);
    expect(known.refit).toBeNull();
  });

  test('two positions give the opposite studs, and the record keeps what was foreseen', async () => {
    const file = await carJob();
    await readFitted(file, 0);
    expect((await refitAdvice(file)).evidence).toBe('part_alone');
    await readFitted(file, 1);
    const known = await refitAdvice(file);
    expect(known.evidence).toBe('positions');
    // Half a turn leaves 30 - 20 um of amplitude, 20 um peak to valley; as it came it is 100.
    expect(known.refit.best.position).toBe(2);
    expect(known.refit.best.low95_um).toBeLessThan(20);
    expect(known.refit.best.high95_um).toBeGreaterThan(20);
    expect(known.refit.all).toHaveLength(4);
    expect(known.refit.all[0].high95_um).toBeGreaterThan(90);
    expect(known.limit.value_mm).toBe(0.05);

    const body = { id: newId(), part_id: file.parts[0].id, position: 1, reason: '' };
    const refusal = await shop.refusal('POST', `/jobs/${file.job.id}/refits${as}`, body);
    expect(refusal).toMatchObject({ status: 409, code: 'reason_needed', field: 'reason' });
    const stored = await shop.want('POST', `/jobs/${file.job.id}/refits${as}`, { ...body, position: 2 });
    expect(stored.foreseen_runout_um).toBe(known.refit.best.runout_um);
    expect(stored.p_within).toBe(known.refit.best.p_within);
  });

  test('a tapered plate of the shop is tried where no position keeps the limit', async () => {
    const file = await carJob();
    const plate = {
      id: newId(),
      name: 'wedge 30',
      hook: '',
      taper_um: 30,
      diameter_nm: 260_000_000,
      studs: 4,
      note: '',
      active: true,
    };
    await shop.want('PUT', `/taper-plates/${plate.id}${as}`, plate);
    await readFitted(file, 0, 0.04, 0);
    await readFitted(file, 1, 0.04, 0);
    // Read 130 mm out, 30 um over 260 mm tilt by 15 um: 2 (40 - 15) = 50 um in place of 80.
    const { refit } = await refitAdvice(file);
    expect(refit.best).toMatchObject({ plate_id: plate.id, plate_name: 'wedge 30', plate_position: 2 });
    expect(refit.best.runout_um).toBeGreaterThan(44);
    expect(refit.best.runout_um).toBeLessThan(56);
    expect(refit.best_without_plate.runout_um).toBeGreaterThan(74);
    await shop.want('PUT', `/taper-plates/${plate.id}${as}`, { ...plate, active: false });
  });

  test('a part of another job is not this one’s', async () => {
    const file = await carJob();
    const refusal = await shop.refusal('GET', `/jobs/${file.job.id}/parts/${newId()}/refit`);
    expect(refusal).toMatchObject({ status: 404, code: 'unknown_part' });
  });
});

describe('on the road', () => {
  test('heat, wear, growth and frequency come with their sources', async () => {
    const file = await carJob();
    await addRound(shop, scene, file.job.id, file.parts[0].id, round(21, 0));
    await readFitted(file, 0, 0.05, 0);
    const known = await shop.want('GET', `/jobs/${file.job.id}/road`);
    expect(known.missing).toEqual([]);
    expect(known.assumed.map((one: Json) => one.field).sort()).toEqual([
      'axle_share',
      'interval_s',
      'speed_km_per_h',
      'stops',
      't_stop_s',
    ]);
    const part = known.parts[0];
    expect(part.heat_before.thickness_mm).toBeCloseTo(21, 3);
    expect(part.heat_after).toBeNull();
    expect(part.hotter_percent).toBeNull();
    // A solid disc takes the same heat in proportion to its thickness: 22 mm new against 20 mm discard.
    const rise = (disc: Json) => disc.stop.rise_bulk_end_k;
    expect(rise(part.heat_discard) / rise(part.heat_new)).toBeCloseTo(1.1, 6);
    expect(part.growth.over).toBe(true);
    expect(known.wheel.circumference_m).toBeGreaterThan(known.wheel.low_m);
    const at90 = known.felt.find((row: Json) => row.speed_km_per_h === 90);
    expect(at90.orders[0].hz).toBeCloseTo(25 / known.wheel.circumference_m, 6);
    expect(at90.orders[1].hz).toBeCloseTo(50 / known.wheel.circumference_m, 6);
  });

  test('a stop that somebody asks about is taken as asked', async () => {
    const file = await carJob();
    await addRound(shop, scene, file.job.id, file.parts[0].id, round(21, 0));
    const known = await shop.want('GET', `/jobs/${file.job.id}/road?speed_km_per_h=72.0&t_stop_s=3.5&stops=2`);
    expect(known.stop).toMatchObject({ speed_km_per_h: 72, t_stop_s: 3.5, stops: 2 });
    expect(known.parts[0].heat_before.repeats.stops).toHaveLength(2);
    // 1500 kg at 20 m/s: 300 kJ, 0.35 of it on one front disc, 0.93 of that in the iron.
    expect(known.parts[0].heat_before.energy_j).toBeCloseTo(300_000 * 0.35 * 0.93, 3);
  });

  test.each([
    ['speed_km_per_h=fast', 'wrong_type', 'speed_km_per_h'],
    ['speed_km_per_h=1e9', 'wrong_type', 'speed_km_per_h'],
    ['speed_km_per_h=9999', 'out_of_range', 'speed_km_per_h'],
    ['t_stop_s=-1', 'out_of_range', 't_stop_s'],
    ['axle_share=1.2.3', 'wrong_type', 'axle_share'],
    ['stops=0', 'out_of_range', 'stops'],
  ])('%s is refused beside its field', async (query, code, field) => {
    const file = await carJob();
    const refusal = await shop.refusal('GET', `/jobs/${file.job.id}/road?${query}`);
    expect(refusal).toMatchObject({ status: 422, code, field });
  });
});

describe('a pulsation', () => {
  test('its order and its corner are found', async () => {
    // 97 % of 90 km/h over 0.965 of pi (406.4 + 225.5) mm, twice a turn.
    const hz = (2 * 90 * 0.97) / 3.6 / (0.965 * Math.PI * (406.4 + 225.5) * 1e-3);
    const file = await carJob({}, { felt_frequency_hz: hz });
    const texts = Array.from({ length: 8 }, (_, k) => (21 + 0.015 * Math.cos(2 * 45 * k * rad)).toFixed(3));
    await addRound(shop, scene, file.job.id, file.parts[0].id, texts, { confirmed: true });
    const known = await shop.want('GET', `/jobs/${file.job.id}/pulsation`);
    expect(known.orders[0].order).toBe(2);
    expect(known.orders[0].probability).toBeGreaterThan(0.8);
    expect(known.corners[0]).toMatchObject({ name: 'front left', read: true, order: 2 });
    expect(known.missing).toEqual([]);
  });

  test('without figures it asks for them', async () => {
    const opened = await openJob(shop, scene, ['left', 'right']);
    const known = await shop.want('GET', `/jobs/${opened.job.number}/pulsation`);
    expect(known.orders).toEqual([]);
    expect(known.missing).toEqual(expect.arrayContaining(['job.tyre', 'job.felt_frequency_hz', 'readings.thickness']));
    expect(codes(known.next)).toContain('find_frequency');
  });
});

describe('a diagnosis', () => {
  test('waits for the cut and for the readings after it', async () => {
    const file = await carJob();
    const known = await shop.want('GET', `/jobs/${file.job.id}/diagnosis`);
    expect(known.parts).toEqual([
      { part_id: file.parts[0].id, side: 'left', missing: ['cut', 'readings_after'], signs: [], found: null },
    ]);
  });
});
