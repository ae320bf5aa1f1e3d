/** What `calc after-cut` answers, as far as the page shows it. */
export interface RemovedAtPoint {
  angle_deg: number;
  radius_mm?: number;
  before_mm: number;
  after_mm: number;
  removed_um: number;
}

export interface AfterCheck {
  code: string;
  value: number;
  limit: number;
  p: number;
  outcome: string;
  text: string;
  source: string;
}

export interface AfterCutAnswer {
  outcome: string;
  removed: RemovedAtPoint[];
  removed_mean_um: number;
  removed_min_um: number;
  removed_max_um: number;
  planned_um?: number | null;
  difference_um?: number | null;
  agrees_with_plan?: boolean | null;
  checks: AfterCheck[];
  advice: { code: string; text: string }[];
}

export type Outcome = 'pass' | 'fail' | 'cannot_tell';

export function outcomeOf(word: string): Outcome {
  if (word === 'pass' || word === 'fail') return word;
  return 'cannot_tell';
}

/** The outcome for the axle: one rotor that fails is enough, and one that cannot be told leaves it open. */
export function together(outcomes: readonly Outcome[]): Outcome {
  if (outcomes.includes('fail')) return 'fail';
  if (outcomes.length === 0 || outcomes.includes('cannot_tell')) return 'cannot_tell';
  return 'pass';
}
