import { useEffect } from 'preact/hooks';
import type { Cut, CutPlan, JobFile, NewPass, Part } from '../api/schema';
import { ask, place } from '../route/router';
import { type Corners, cornersOf, cutsFace } from './dials';
import { benchEvents, keepPass, passesOf, tick } from './record';
import { type Attempt, type GuideState, guideState } from './sequence';

/** Everything that the guided cut of one rotor stands on. */
export interface Bench {
  file: JobFile;
  part: Part;
  plan: CutPlan;
  state: GuideState;
  cuts: { outboard: boolean; inboard: boolean };
  /** Passes of this plan, stored or on their way. */
  passes: NewPass[];
  troubles: { id: string; pass: number; at_ms: number; detail: string }[];
  corners: Corners;
}

/** The rotor that the address names, else the first one that is not cut yet, else the first. */
export function partHere(file: JobFile): Part | null {
  const named = file.parts.find((one) => one.side === place.value.query.part);
  const uncut = file.parts.find((one) => !file.cuts.some((cut) => cut.part_id === one.id));
  return named ?? uncut ?? file.parts[0] ?? null;
}

/** Writes the rotor into the address, so that it stays this one when the other is next in turn. */
export function useNamedPart(part: Part | null): void {
  const side = part?.side ?? '';
  useEffect(() => {
    if (side && !place.value.query.part) ask({ part: side });
  }, [side]);
}

export const planSettled = (file: JobFile, part: Part): CutPlan | null =>
  file.cut_plans.filter((one) => one.part_id === part.id).at(-1) ?? null;

export const lastCut = (file: JobFile, part: Part): Cut | null =>
  file.cuts.filter((one) => one.part_id === part.id).at(-1) ?? null;

/** A plan that is younger than the last cut of its part is still to be cut. */
export const isCut = (file: JobFile, part: Part, plan: CutPlan | null): boolean => {
  const cut = lastCut(file, part);
  return cut !== null && (plan === null || plan.at <= cut.at);
};

export function benchOf(file: JobFile, part: Part, plan: CutPlan): Bench {
  const all = passesOf(file, part.id);
  const passes = all.filter((one) => one.plan_id === plan.id);
  const events = benchEvents(file, { part_id: part.id, phase: 'cut', since: plan.at });
  const cuts = { outboard: cutsFace(plan.passes, 'outboard'), inboard: cutsFace(plan.passes, 'inboard') };
  const state = guideState(
    { passes: plan.passes.length, ...cuts, recorded_before: all.length - passes.length, recorded: all.length },
    events,
  );
  const chosen = benchEvents(file, { part_id: part.id, phase: 'cut' })
    .filter((one) => one.step === 'corners' || (one.step === 'edges' && one.detail !== ''))
    .at(-1);
  const troubles = events.filter((one) => one.event === 'trouble');
  return { file, part, plan, state, cuts, passes, troubles, corners: cornersOf(chosen?.detail ?? '') };
}

const iso = (ms: number) => new Date(ms).toISOString();

/**
 * Writes a pass down once it has ended for good; a second time changes nothing, nor does a second tablet: the pass has
 * the id of the step that began it.
 */
export function recordPass({ file, part, plan, state, corners, troubles }: Bench, attempt: Attempt): void {
  const run = state.runs.get(attempt.number);
  const planned = plan.passes[attempt.index];
  if (!run || run.outcome === null || run.ended_ms === null || !planned) return;
  if (passesOf(file, part.id).length >= attempt.number) return;
  const paused = Math.round(run.paused_ms / 1000);
  const notes = [
    attempt.again ? 'again at the same depth' : '',
    paused > 0 ? `paused for ${paused} s` : '',
    ...troubles.filter((one) => one.pass === attempt.number).map((one) => one.detail),
  ];
  keepPass({
    id: run.began_id,
    part_id: part.id,
    plan_id: plan.id,
    outboard_marks: planned.outboard_marks,
    inboard_marks: planned.inboard_marks,
    rpm: planned.rpm,
    feed_mm_per_rev: planned.feed_mm_per_rev,
    outboard_corner_id: planned.outboard_marks > 0 ? corners.outboard : null,
    inboard_corner_id: planned.inboard_marks > 0 ? corners.inboard : null,
    outcome: run.outcome,
    began_at: iso(run.began_ms),
    ended_at: iso(run.ended_ms),
    note: notes.filter(Boolean).join('; '),
  });
}

/** What can be done at the bench, each written down with its time. */
export function actions(bench: Bench) {
  const { part, state } = bench;
  const at = state.at;
  const here = (event: Parameters<typeof tick>[0]['event'], detail = '') =>
    at ? tick({ part_id: part.id, phase: 'cut', step: at.word, pass: at.pass, event, detail }) : undefined;
  return {
    done: (detail = '') => {
      here('done', detail);
      if (at?.word === 'feed_on') tick({ part_id: part.id, phase: 'cut', step: 'pass', pass: at.pass, event: 'begun' });
      if (at?.word === 'feed_off' && at.attempt) recordPass(bench, at.attempt);
      if (at?.word === 'stopped' && at.attempt) recordPass(bench, at.attempt);
    },
    pause: () => here(state.paused ? 'resumed' : 'paused'),
    stop: () => {
      if (at?.word === 'pass') here('stopped');
      else if (!state.paused) here('paused', 'stop');
    },
    trouble: (detail: string) => here('trouble', detail),
    undo: () => {
      const last = state.undo;
      if (!last) return;
      const back = (step: string) => tick({ part_id: part.id, phase: 'cut', step, pass: last.pass, event: 'undone' });
      back(last.word);
      const running = last.word === 'pass' && state.runs.get(last.pass)?.outcome === null;
      if (running) back('feed_on');
    },
  };
}
