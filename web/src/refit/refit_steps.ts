import type { BenchEvent } from '../guide/events';

/** What is done at one wheel until the rotor is back and read. */
export const WHEEL = [
  'flange_clean',
  'hat_clean',
  'part_on',
  'nuts_by_hand',
  'nuts_first',
  'nuts_second',
  'nuts_full',
  'runout_checked',
] as const;
/** What is done once for the car, when its last wheel is on. */
export const CAR = ['pedal_pumped', 'bedding_told', 'retorque_told'] as const;

/** A drum's face cannot be read from outside: it is not read again as it is fitted. */
export const wheelSteps = (drum: boolean): readonly (typeof WHEEL)[number][] =>
  drum ? WHEEL.filter((one) => one !== 'runout_checked') : WHEEL;

export type RefitWord = (typeof WHEEL)[number] | (typeof CAR)[number];

const isWord = (step: string): step is RefitWord => [...WHEEL, ...CAR].some((one) => one === step);

export interface RefitState {
  done: ReadonlySet<RefitWord>;
  /** The step to do now; null when all are done, or when another wheel is first. */
  at: RefitWord | null;
  undo: RefitWord | null;
  /** What was said when a step was ticked last. */
  details: ReadonlyMap<RefitWord, string>;
  wheel_done: boolean;
}

/** What a rotor that was taken off again has before it once more. */
const FROM_ON = WHEEL.slice(WHEEL.indexOf('part_on'));

function ticked(events: readonly BenchEvent[]) {
  const done: RefitWord[] = [];
  const details = new Map<RefitWord, string>();
  const drop = (word: RefitWord) => {
    if (done.includes(word)) done.splice(done.indexOf(word), 1);
  };
  for (const { step, event, detail } of events) {
    if (!isWord(step)) continue;
    if (event === 'done') {
      drop(step);
      done.push(step);
      details.set(step, detail);
    }
    if (event === 'undone') {
      drop(step);
      if (step === 'part_on') FROM_ON.forEach(drop);
    }
  }
  return { done, details };
}

/**
 * Worked out from the events alone: those of this wheel, and those of the others, by which the car's own steps count as
 * done wherever they were ticked, and wait until every wheel is on.
 */
export function refitState(
  own: readonly BenchEvent[],
  others: readonly (readonly BenchEvent[])[],
  drum = false,
): RefitState {
  const steps = wheelSteps(drum);
  const { done, details } = ticked(own);
  const elsewhere = others.map((events) => ticked(events).done);
  const wheel = steps.find((one) => !done.includes(one)) ?? null;
  const others_on = elsewhere.every((one) => steps.every((word) => one.includes(word)));
  const car = CAR.find((one) => !done.includes(one) && !elsewhere.some((other) => other.includes(one))) ?? null;
  return {
    done: new Set(done),
    at: wheel ?? (others_on ? car : null),
    undo: done.at(-1) ?? null,
    details,
    wheel_done: wheel === null,
  };
}
