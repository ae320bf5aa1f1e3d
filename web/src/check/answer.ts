import type { components } from '../api/types';

export type AfterCutAnswer = components['schemas']['CalcAfterCutOutput'];
export type AfterCheck = components['schemas']['CalcAfterCheck'];

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
