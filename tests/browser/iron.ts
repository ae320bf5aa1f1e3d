import { limits, type Scene } from '../api/scene';
import { type Json, newId, type Served } from '../api/shop';

/** An invented pegboard, and jobs whose cut is decided: what the mount begins with. */
const nm = (mm: number) => Math.round(mm * 1e6);

type Sizes = Partial<
  Record<'small' | 'large' | 'ring_inner' | 'ring_outer' | 'cup_depth' | 'cup_bore' | 'solid', number>
> &
  Partial<Record<'free' | 'outside', number>>;

const piece = (name: string, kind: string, hook: string, length: number, sizes: Sizes = {}, rest: object = {}) => ({
  id: newId(),
  name,
  kind,
  hook,
  unit: 'mm',
  bore_nm: nm(25.4),
  length_nm: nm(length),
  ...Object.fromEntries(Object.entries(sizes).map(([size, mm]) => [`${size}_nm`, nm(mm)])),
  note: '',
  active: true,
  ...rest,
});

const bell = { ring_inner: 108, ring_outer: 130, cup_bore: 100, cup_depth: 38 };

export const PIECES = [
  piece('Cone small', 'cone', 'A1', 35, { small: 52, large: 68 }),
  piece('Cone middle', 'cone', 'A2', 35, { small: 58, large: 72 }),
  piece('Cone large', 'cone', 'A3', 35, { small: 66, large: 84 }),
  piece('Bell left', 'clamp', 'B1', 48, bell),
  piece('Bell right', 'clamp', 'B2', 50, bell),
  piece('Spring', 'spring', 'C1', 60, { solid: 8, free: 60 }),
  piece('Taper wide', 'taper', 'D1', 40, { small: 56, large: 72, outside: 20 }),
  piece('Taper narrow', 'taper', 'D2', 40, { small: 40, large: 56, outside: 20 }),
  piece('Spacer 20', 'spacer', 'E1', 20),
  piece('Spacer 30', 'spacer', 'E2', 30),
  piece('Rubber 25', 'spacer', 'E3', 25, {}, { damping: true }),
  piece('Nut', 'nut', 'F1', 28),
];

export async function hangPieces(shop: Served, scene: Scene): Promise<void> {
  const as = `?by_person_id=${scene.by}`;
  for (const one of PIECES) await shop.want('PUT', `/pieces/${one.id}${as}`, one);
}

/** The arbor of the scene's lathe. */
export async function measureArbor(shop: Served, scene: Scene): Promise<void> {
  const lathe = (await shop.want('GET', '/shop')).lathes.find((one: Json) => one.id === scene.lathe);
  await shop.want('PUT', `/lathes/${scene.lathe}?by_person_id=${scene.by}`, {
    ...lathe,
    arbor_diameter_nm: nm(25.4),
    thread_start_nm: nm(150),
    tip_nm: nm(230),
    nut_engagement_nm: nm(20),
    speeds_rpm: [60, 90, 130],
    feeds_mm_per_rev: [0.05, 0.1],
  });
}

/** A job with one rotor, decided to be cut. */
export async function decidedJob(shop: Served, scene: Scene, construction: 'hubless' | 'integral_hub'): Promise<Json> {
  const as = `?by_person_id=${scene.by}`;
  const id = newId();
  const part = { id: newId(), side: 'left', construction, vented: true, limits };
  await shop.want('POST', `/jobs${as}`, {
    job: {
      id,
      brought_by: 'class 3',
      vehicle: 'grey estate',
      complaint: 'practice',
      complaint_note: '',
      axle: 'front',
      odometer: 84_210,
      odometer_unit: 'km',
      worker_person_id: scene.by,
      lathe_id: scene.lathe,
    },
    parts: [part],
  });
  for (let point = 0; point < 8; point += 1) {
    const text = (21.4 + 0.01 * Math.cos((Math.PI * point) / 4)).toFixed(3);
    const reading = { id: newId(), part_id: part.id, stage: 'before', quantity: 'thickness', circle: 0, point, text };
    const rest = { default_unit: 'mm', instrument_id: scene.micrometer, confirmed: true };
    await shop.want('POST', `/jobs/${id}/readings${as}`, { ...reading, ...rest });
  }
  await shop.want('POST', `/jobs/${id}/decisions${as}`, { id: newId(), action: 'cut', reason: 'practice in class' });
  return shop.want('GET', `/jobs/${id}`);
}
