import type { PartAssessment, Stage } from '../api/schema';
import type { TabName } from './slots';

/** What the shop's assessment says of one tab, as the screen reads it. */
export interface Harmonic {
  order: number;
  amplitude_um: number;
  phase_deg: number;
}

export interface ThicknessAnswer {
  mean_mm: number;
  min_mm: number;
  min_angle_deg: number;
  max_mm: number;
  variation_mm: number;
  taper_mm: number;
  temperature_shift_mm?: number;
  true_variation_mm: { median: number; low95: number; high95: number };
  p_variation_within?: number | null;
  u_min_mm: number;
  harmonics: Harmonic[];
  blind_orders?: number[];
  advice: { code: string; text: string }[];
}

export interface CircleAnswer {
  mean_um: number;
  range_um: number;
  harmonics: Harmonic[];
  residual_sd_um: number;
  blind_orders: number[];
}

export function thicknessAnswer(part: PartAssessment | null, stage: Stage): ThicknessAnswer | null {
  return (part?.[stage].thickness as ThicknessAnswer | null | undefined) ?? null;
}

export function circleAnswer(part: PartAssessment | null, stage: Stage, tab: TabName): CircleAnswer | null {
  if (tab !== 'runout_outboard' && tab !== 'runout_inboard') return null;
  return (part?.[stage][tab] as CircleAnswer | null | undefined) ?? null;
}
