import { computed } from '@preact/signals';
import type { components } from '../api/types';
import { assessmentOf } from '../state/job';
import { part, stage, tab } from './at_bench';
import { isOnCar } from './slots';

export type DrumFigures = components['schemas']['CalcDrumFigures'];

/** What the shop makes of the diameters that are read so far; null before three of a depth. */
export const drumAnswer = computed<DrumFigures | null>(() => {
  if (tab.value.name !== 'diameter' || !part.value || isOnCar(stage.value)) return null;
  return assessmentOf(part.value)?.[stage.value].diameter ?? null;
});
