import { type Json, newId, type Served } from './shop';

/** Somebody, a micrometer, a dial indicator and a lathe: what every job needs. */
export interface Scene {
  readonly by: string;
  readonly micrometer: string;
  readonly dial: string;
  readonly lathe: string;
}

export const setScene = async (shop: Served): Promise<Scene> => {
  const scene = { by: newId(), micrometer: newId(), dial: newId(), lathe: newId() };
  const as = `?by_person_id=${scene.by}`;
  await shop.want('PUT', `/people/${scene.by}${as}`, {
    id: scene.by,
    name: 'Ada Stone',
    role: 'teacher',
    active: true,
  });
  const instrument = { serial: 'A-1', default_unit: 'mm', active: true, calibrated_on: '2026-03-01' };
  await shop.want('PUT', `/instruments/${scene.micrometer}${as}`, {
    ...instrument,
    id: scene.micrometer,
    name: 'Micrometer 0-25',
    kind: 'micrometer',
    resolution_nm: 1000,
    mpe_nm: 4000,
    repeatability_nm: 2000,
  });
  await shop.want('PUT', `/instruments/${scene.dial}${as}`, {
    ...instrument,
    id: scene.dial,
    name: 'Dial 3',
    kind: 'dial_indicator',
    resolution_nm: 10_000,
    mpe_nm: 10_000,
    repeatability_nm: 3000,
  });
  await shop.want('PUT', `/lathes/${scene.lathe}${as}`, {
    id: scene.lathe,
    name: 'Bench 1',
    dial_um_per_mark: 25.4,
    dial_sd_um: 5,
    mount_runout_um: 30,
    note: '',
    active: true,
  });
  return scene;
};

export const limit = (text: string, source = 'cast_on_part') => ({
  value: { text, unit: 'mm' },
  source,
  source_note: '',
});

export const limits = {
  nominal: limit('22.0'),
  machine_to: limit('20.6', 'service_information'),
  discard: limit('20.0'),
  variation: limit('0.015', 'service_information'),
  runout: limit('0.05', 'service_information'),
};

export const newJob = (scene: Scene, sides: readonly string[] = ['left', 'right']) => {
  const id = newId();
  return {
    job: {
      id,
      brought_by: 'Mr Lindqvist',
      vehicle: 'grey saloon, front axle',
      complaint: 'pulsation',
      complaint_note: 'shakes from 80 km/h',
      axle: 'front',
      odometer: 84_210,
      odometer_unit: 'km',
      worker_person_id: scene.by,
      lathe_id: scene.lathe,
    },
    parts: sides.map((side) => ({ id: newId(), side, construction: 'hubless', vented: true, limits })),
  };
};

/** Opens a job with a plan of eight points for each part before the cut. */
export const openJob = async (shop: Served, scene: Scene, sides?: readonly string[]): Promise<Json> => {
  const file = await shop.want('POST', `/jobs?by_person_id=${scene.by}`, newJob(scene, sides));
  for (const part of file.parts) await putPlan(shop, scene, file.job.id, part.id, 'before');
  return shop.want('GET', `/jobs/${file.job.id}`);
};

export const putPlan = async (shop: Served, scene: Scene, job: string, part: string, stage: string): Promise<Json> => {
  const file = await shop.want('GET', `/jobs/${job}`);
  const present = file.plans.find((plan: Json) => plan.part_id === part && plan.stage === stage);
  return shop.want('PUT', `/jobs/${job}/parts/${part}/plans/${stage}?by_person_id=${scene.by}`, {
    part_id: part,
    stage,
    points: 8,
    turning: 'clockwise',
    circles_from_edge_nm: [15_000_000],
    runout_place: 'on_arbor',
    part_temperature_c: 20,
    thickness_instrument_id: scene.micrometer,
    runout_instrument_id: scene.dial,
    version: present?.version ?? 1,
  });
};

export const reading = (scene: Scene, part: string, point: number, text: string, rest: object = {}) => ({
  id: newId(),
  part_id: part,
  stage: 'before',
  quantity: 'thickness',
  circle: 0,
  point,
  text,
  default_unit: 'mm',
  instrument_id: scene.micrometer,
  ...rest,
});

/** Thickness round one part: a mean with one wave of that amplitude. */
export const round = (mean_mm: number, amplitude_mm: number, points = 8): string[] =>
  Array.from({ length: points }, (_, k) => (mean_mm + amplitude_mm * Math.cos((2 * Math.PI * k) / points)).toFixed(3));

export const addRound = async (
  shop: Served,
  scene: Scene,
  job: string,
  part: string,
  texts: readonly string[],
  rest: object = {},
): Promise<Json[]> => {
  const stored: Json[] = [];
  for (const [point, text] of texts.entries()) {
    const body = reading(scene, part, point, text, rest);
    stored.push(await shop.want('POST', `/jobs/${job}/readings?by_person_id=${scene.by}`, body));
  }
  return stored;
};
