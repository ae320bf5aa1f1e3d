import type { PartAssessment } from '../api/schema';
import type { components } from '../api/types';

type Schemas = components['schemas'];
export type AfterCheck = Schemas['CalcAfterCheck'] | Schemas['CalcDrumCheck'];

export interface RemovedAt {
  angle_deg: number;
  /** Of the circle that it was read on: of a rotor its radius, of a drum its depth from the open edge. */
  circle_mm: number | null;
  before_mm: number;
  after_mm: number;
  removed_um: number;
}

/** What a cut did, of a rotor in thickness, of a drum in diameter. */
export interface CutAnswer {
  outcome: string;
  checks: readonly AfterCheck[];
  removed: readonly RemovedAt[];
  removed_mean_um: number;
  removed_min_um: number;
  removed_max_um: number;
  planned_um?: number | null;
  difference_um?: number | null;
  agrees_with_plan?: boolean | null;
  advice: readonly { code: string; text: string }[];
}

/** The shop's answer after the cut; null before there is one. */
export function cutAnswerOf(assessed: PartAssessment | null): CutAnswer | null {
  const drum = assessed?.drum_check;
  const check = assessed?.check;
  if (!drum) return check ? { ...check, removed: check.removed.map(ofRotor) } : null;
  return {
    ...drum,
    removed: drum.taken.map(({ depth_mm, taken_um, ...rest }) => ({
      ...rest,
      circle_mm: depth_mm,
      removed_um: taken_um,
    })),
    removed_mean_um: drum.taken_mean_um,
    removed_min_um: drum.taken_min_um,
    removed_max_um: drum.taken_max_um,
  };
}

type OfRotor = NonNullable<PartAssessment['check']>['removed'][number];
const ofRotor = ({ radius_mm, ...rest }: OfRotor): RemovedAt => ({ ...rest, circle_mm: radius_mm ?? null });

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
