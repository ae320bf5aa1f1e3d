import type { BenchEvent } from './events';

/**
 * The guided cut as data: which steps there are, which are done, where the pass is. Everything is worked out from the
 * events alone, so a reload or another tablet finds the same place.
 */
export const PREPARING = ['edges', 'band_on', 'guards'] as const;
const TOUCHING = ['touch_outboard', 'dial_outboard', 'touch_inboard', 'dial_inboard'] as const;
export type StepWord =
  | (typeof PREPARING)[number]
  | (typeof TOUCHING)[number]
  | 'machine_on'
  | 'heads_open'
  | 'run_in'
  | 'inner_edge'
  | 'marks'
  | 'lock'
  | 'feed_on'
  | 'pass'
  | 'feed_off'
  | 'machine_off'
  | 'measure'
  | 'stopped';

/** How a pass that was stopped goes on: from the inner edge at the same depth, from a new touch, or not at all. */
export type AfterStop = 'edge' | 'touch' | 'end';

/** One time that the tools go across: a pass that is stopped and begun again is two of them. */
export interface Attempt {
  /** Counts the part's passes, as the shop does. */
  number: number;
  /** Which pass of the plan, from 0. */
  index: number;
  from: 'touch' | 'edge';
  /** The tools stand at this depth already. */
  again: boolean;
}

export interface GuideStep {
  word: StepWord;
  /** Number of the attempt; 0 where the step belongs to none. */
  pass: number;
  attempt: Attempt | null;
}

export interface Run {
  /** Of the step that began it: the same on every tablet that follows it. */
  began_id: string;
  began_ms: number;
  paused_ms: number;
  paused_since_ms: number | null;
  ended_ms: number | null;
  outcome: 'finished' | 'stopped' | null;
}

/** What is to be done: how many passes, which faces are cut at all, how many passes the shop has from before. */
export interface Task {
  passes: number;
  outboard: boolean;
  inboard: boolean;
  recorded_before: number;
  /** Passes on record or on their way there, those from before included: what they rest on is not taken back. */
  recorded: number;
}

export interface GuideState {
  steps: GuideStep[];
  /** The step to do now; null when all is done. */
  at: GuideStep | null;
  /** Its place among the steps, from 0. */
  place: number;
  run: Run | null;
  paused: boolean;
  /** What the last tick can be taken back as; null where it cannot. */
  undo: GuideStep | null;
  attempts: Attempt[];
  runs: ReadonlyMap<number, Run>;
  details: ReadonlyMap<string, string>;
}

const key = (step: string, pass: number) => `${step}/${pass}`;

interface Taken {
  done: Map<string, string>;
  order: { step: string; pass: number }[];
  runs: Map<number, Run>;
  paused: Set<string>;
}

function fold(events: readonly BenchEvent[]): Taken {
  const taken: Taken = { done: new Map(), order: [], runs: new Map(), paused: new Set() };
  for (const event of events) {
    const here = key(event.step, event.pass);
    if (event.step === 'pass') followRun(taken.runs, event);
    if (event.event === 'paused') taken.paused.add(here);
    else if (event.event !== 'trouble') taken.paused.delete(here);
    if (event.event === 'done' || event.event === 'begun' || event.event === 'stopped') {
      if (event.event !== 'begun') taken.done.set(here, event.detail);
      taken.order.push({ step: event.step, pass: event.pass });
    }
    if (event.event === 'undone') {
      taken.done.delete(here);
      const last = taken.order.map((one) => key(one.step, one.pass)).lastIndexOf(here);
      if (last >= 0) taken.order.splice(last, 1);
    }
  }
  return taken;
}

/** Begun, paused, gone on, ended; an end that is taken back leaves the pass running, a beginning none. */
function followRun(runs: Map<number, Run>, { id, pass, event, at_ms }: BenchEvent): void {
  const run = runs.get(pass);
  if (event === 'begun' && !run) {
    runs.set(pass, {
      began_id: id,
      began_ms: at_ms,
      paused_ms: 0,
      paused_since_ms: null,
      ended_ms: null,
      outcome: null,
    });
  }
  if (!run) return;
  if (event === 'undone') {
    if (run.outcome === null) runs.delete(pass);
    else runs.set(pass, { ...run, ended_ms: null, outcome: null });
    return;
  }
  if (run.outcome !== null) return;
  if (event === 'paused' && run.paused_since_ms === null) runs.set(pass, { ...run, paused_since_ms: at_ms });
  const ends = event === 'done' || event === 'stopped';
  if (event !== 'resumed' && !ends) return;
  const paused_ms = run.paused_ms + (run.paused_since_ms === null ? 0 : Math.max(0, at_ms - run.paused_since_ms));
  const next = { ...run, paused_ms, paused_since_ms: null };
  const outcome = event === 'stopped' ? 'stopped' : 'finished';
  runs.set(pass, ends ? { ...next, ended_ms: at_ms, outcome } : next);
}

/** Milliseconds of cutting so far, pauses left out. */
export function cutting_ms(run: Run, now_ms: number): number {
  const until = run.ended_ms ?? run.paused_since_ms ?? now_ms;
  return Math.max(0, until - run.began_ms - run.paused_ms);
}

function stepsOf(attempt: Attempt, task: Task): StepWord[] {
  const touched = TOUCHING.filter((word) => task[word.endsWith('outboard') ? 'outboard' : 'inboard']);
  const start: StepWord[] =
    attempt.from === 'touch' ? ['machine_on', 'heads_open', 'run_in', ...touched] : ['machine_on'];
  return [...start, 'inner_edge', 'marks', 'lock', 'feed_on', 'pass'];
}

function planned(task: Task, taken: Taken): { steps: GuideStep[]; attempts: Attempt[] } {
  const steps: GuideStep[] = PREPARING.map((word) => ({ word, pass: 0, attempt: null }));
  const attempts: Attempt[] = [];
  let next: Attempt | null = { number: task.recorded_before + 1, index: 0, from: 'touch', again: false };
  while (next && next.index < task.passes) {
    const attempt: Attempt = next;
    const add = (...words: StepWord[]) => {
      for (const word of words) steps.push({ word, pass: attempt.number, attempt });
    };
    attempts.push(attempt);
    add(...stepsOf(attempt, task));
    const number = attempt.number + 1;
    if (taken.runs.get(attempt.number)?.outcome === 'stopped') {
      add('stopped');
      const choice = taken.done.get(key('stopped', attempt.number)) as AfterStop | undefined;
      next =
        choice === undefined || choice === 'end'
          ? null
          : { number, index: attempt.index, from: choice, again: choice === 'edge' };
      continue;
    }
    add('feed_off', 'machine_off');
    const index = attempt.index + 1;
    if (index < task.passes) add('measure');
    next = { number, index, from: 'edge', again: false };
  }
  return { steps, attempts };
}

/** What stands or falls with the record of its pass: that record is never taken back, so neither are these. */
const KEPT_WITH_PASS: readonly string[] = ['machine_off', 'measure'];

export function guideState(task: Task, events: readonly BenchEvent[]): GuideState {
  const taken = fold(events);
  const { steps, attempts } = planned(task, taken);
  const place = steps.findIndex((one) => !taken.done.has(key(one.word, one.pass)));
  const at = steps[place] ?? null;
  const last = taken.order.at(-1);
  const found = last ? steps.find((one) => one.word === last.step && one.pass === last.pass) : undefined;
  const kept = found && found.pass > 0 && found.pass <= task.recorded && !KEPT_WITH_PASS.includes(found.word);
  return {
    steps,
    at,
    place: place < 0 ? steps.length : place,
    run: at ? (taken.runs.get(at.pass) ?? null) : null,
    paused: at ? taken.paused.has(key(at.word, at.pass)) : false,
    undo: found && !kept ? found : null,
    attempts,
    runs: taken.runs,
    details: taken.done,
  };
}

/** What was typed at a step, such as what the dial read. */
export const typedAt = (state: GuideState, word: StepWord, pass: number): string =>
  state.details.get(key(word, pass)) ?? '';
