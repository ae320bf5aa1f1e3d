import type { BenchStage, CalcCircleOutput, CalcThicknessOutput, PartAssessment } from '../api/schema';
import type { TabName } from './slots';

/** What the shop's assessment says of one tab, as the screen reads it. */
export type ThicknessAnswer = CalcThicknessOutput;
export type CircleAnswer = CalcCircleOutput;

export function thicknessAnswer(part: PartAssessment | null, stage: BenchStage): ThicknessAnswer | null {
  return part?.[stage].thickness ?? null;
}

export function circleAnswer(part: PartAssessment | null, stage: BenchStage, tab: TabName): CircleAnswer | null {
  if (tab !== 'runout_outboard' && tab !== 'runout_inboard') return null;
  return part?.[stage][tab] ?? null;
}
