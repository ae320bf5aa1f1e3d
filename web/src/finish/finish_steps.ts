import type { JobFile, Part } from '../api/schema';
import type { BenchEvent } from '../guide/events';
import { isDrum } from '../show/part_kind';

/** What is done to a rotor between the last pass and the readings after the cut. */
export const FINISH = ['sand_outboard', 'sand_inboard', 'washed', 'cloth_white', 'cool'] as const;
export type FinishWord = (typeof FINISH)[number];

/** The steps of this part: a drum has one surface to sand. */
export const finishOf = (part: Pick<Part, 'kind'>): readonly FinishWord[] =>
  isDrum(part) ? FINISH.filter((word) => word !== 'sand_inboard') : FINISH;

export const isSanding = (word: FinishWord | null): word is 'sand_outboard' | 'sand_inboard' =>
  word === 'sand_outboard' || word === 'sand_inboard';

export interface FinishState {
  done: ReadonlySet<FinishWord>;
  /** The step to do now; null when all are done. */
  at: FinishWord | null;
  /** Since when the sanding of this side runs. */
  sanding_since_ms: number | null;
  undo: FinishWord | null;
}

/** Both faces may have been ticked in one. */
const wordsOf = (step: string): FinishWord[] =>
  step === 'sanded' ? ['sand_outboard', 'sand_inboard'] : FINISH.filter((one) => one === step);

/** Worked out from the events alone. A cloth that came away grey takes the washing back with it. */
export function finishState(events: readonly BenchEvent[], steps: readonly FinishWord[] = FINISH): FinishState {
  const done: FinishWord[] = [];
  const begun = new Map<string, number>();
  for (const { step, event, at_ms } of events) {
    for (const word of wordsOf(step)) {
      if (event === 'begun') begun.set(word, at_ms);
      if (event === 'done' && !done.includes(word)) done.push(word);
      if (event !== 'undone') continue;
      begun.delete(word);
      if (done.includes(word)) done.splice(done.indexOf(word), 1);
    }
  }
  const at = steps.find((one) => !done.includes(one)) ?? null;
  return {
    done: new Set(done),
    at,
    sanding_since_ms: isSanding(at) ? (begun.get(at) ?? null) : null,
    undo: done.at(-1) ?? null,
  };
}

export type AfterFinish = { step: 'mount' | 'finish' | 'after'; part: Part };

/** Where it goes on: the other rotor to the lathe, or its finish, or both to the micrometer. */
export function afterFinish(file: JobFile, part: Part, finished: (part: Part) => boolean): AfterFinish {
  for (const other of file.parts) {
    if (other.id === part.id) continue;
    if (!file.cuts.some((one) => one.part_id === other.id)) return { step: 'mount', part: other };
    if (!finished(other)) return { step: 'finish', part: other };
  }
  return { step: 'after', part: file.parts[0] ?? part };
}
