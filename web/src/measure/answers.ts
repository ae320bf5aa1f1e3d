import type { CalcCircleOutput, CalcThicknessOutput, PartAssessment, Stage } from '../api/schema';
import { isOnCar, type TabName } from './slots';

/** What the shop's assessment says of one tab, as the screen reads it. */
export type ThicknessAnswer = CalcThicknessOutput;
export type CircleAnswer = CalcCircleOutput;

export function thicknessAnswer(part: PartAssessment | null, stage: Stage): ThicknessAnswer | null {
  return isOnCar(stage) ? null : (part?.[stage].thickness ?? null);
}

/** @param on_car what the shop makes of the round on the car, which no assessment holds */
export function circleAnswer(
  part: PartAssessment | null,
  stage: Stage,
  tab: TabName,
  on_car: CircleAnswer | null,
): CircleAnswer | null {
  if (isOnCar(stage)) return on_car;
  if (tab !== 'runout_outboard' && tab !== 'runout_inboard') return null;
  return part?.[stage][tab] ?? null;
}
