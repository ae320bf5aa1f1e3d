import type { JobFile, MeasuringPlan, Part } from '../api/schema';
import type { RingPoint } from '../pictures/ring';
import { meanAt, shownReadings } from './shown';
import { angleOfPoint, slotsOf, spreadOf, tabsOf } from './slots';

/** The diameters of a drum that the shop has, at the places of its plan. */
export function diametersOf(file: JobFile, part: Part, plan: MeasuringPlan): RingPoint[] {
  const tab = tabsOf('before', part).find((one) => one.name === 'diameter');
  if (!tab) return [];
  const shown = shownReadings(file, [], part.id, plan.stage);
  const spread = spreadOf(tab, plan.points, true);
  return slotsOf(tab, plan, true).map((slot) => {
    const nm = meanAt(shown, slot);
    return {
      circle: slot.circle,
      point: slot.point,
      angle_deg: angleOfPoint(slot.point, spread),
      value_mm: nm === null ? null : nm / 1e6,
      state: nm === null ? 'empty' : 'saved',
    };
  });
}
