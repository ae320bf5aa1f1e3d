import { effect, signal } from '@preact/signals';
import { send } from '../api/client';
import type { Limit } from '../api/schema';
import type { components } from '../api/types';
import { isDrum } from '../show/part_kind';
import { shop } from '../state/shop';
import { instrument, part, plan, shownHere, slots, spread, tab } from './at_bench';
import { readingsAt } from './shown';
import { angleOfPoint } from './slots';
import { zeroOf } from './zero_check';

export type DrumFigures = components['schemas']['CalcDrumVerdict'];
type Reading = components['schemas']['CalcDrumReading'];

/** What the shop makes of the diameters that are read so far; null before three of a depth. */
export const drumAnswer = signal<DrumFigures | null>(null);

const FEWEST = 3;
const STILL_MS = 150;
const NM_PER_MM = 1e6;
let asked = 0;

effect(() => {
  const mine = ++asked;
  const body = tab.value.name === 'diameter' && isDrum(part.value) ? drumHere() : null;
  if (!body) {
    drumAnswer.value = null;
    return undefined;
  }
  const timer = setTimeout(() => {
    send({ method: 'post', path: '/calc/drum', body }).then(
      (answer) => {
        const [figures] = (answer as { parts: DrumFigures[] }).parts;
        if (mine === asked) drumAnswer.value = figures ?? null;
      },
      () => undefined,
    );
  }, STILL_MS);
  return () => clearTimeout(timer);
});

const limitOf = (limit: Limit | null | undefined) =>
  limit?.value.nm === undefined ? null : { value_mm: limit.value.nm / NM_PER_MM };

/** The depths of which three diameters or more are read, by the gauge that reads them. */
function drumHere() {
  const depths = plan.value?.circles_from_edge_nm ?? [];
  const used = instrument.value;
  const readings = slots.value.flatMap((slot): Reading[] => {
    const values_mm = readingsAt(shownHere.value, slot).flatMap(({ typed }) =>
      typed?.nm === undefined ? [] : [typed.nm / NM_PER_MM],
    );
    if (values_mm.length === 0) return [];
    const depth_mm = (depths[slot.circle] ?? 0) / NM_PER_MM;
    return [{ depth_mm, angle_deg: angleOfPoint(slot.point, spread.value), values_mm }];
  });
  const enough = readings.filter((one) => readings.filter((other) => other.depth_mm === one.depth_mm).length >= FEWEST);
  if (!used || enough.length === 0) return null;
  const limits = part.value?.limits;
  return {
    parts: [
      {
        limits: { out_of_round: limitOf(limits?.out_of_round), taper: limitOf(limits?.taper) },
        readings: enough,
        gauge: {
          resolution_mm: used.resolution_nm / NM_PER_MM,
          mpe_mm: used.mpe_nm / NM_PER_MM,
          repeatability_mm: used.repeatability_nm / NM_PER_MM,
          zero_error_mm: (zeroOf(used)?.error.nm ?? 0) / NM_PER_MM,
        },
        part_temperature_c: plan.value?.part_temperature_c ?? 20,
      },
    ],
    confidence: shop.value?.settings.confidence ?? 0.95,
  };
}
