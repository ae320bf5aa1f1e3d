import type { CutPlan, Decision, Part, Pass } from '../api/schema';
import { type DrumVerdict, type Judged, type PartVerdict, verdictOf } from '../verdict/answer';

/** What the dials are to be turned by, and what that leaves. */
export interface Plan {
  outboard: number;
  inboard: number;
  final_mm: number;
  machine_to_mm: number | null;
}

/**
 * The plan of the verdict that was decided upon: readings that came in since do not change what was decided. Before a
 * decision, that of the verdict as it stands.
 */
export function planFor(
  decisions: readonly Decision[],
  now: Judged | null,
  part: Part,
  parts: readonly Part[],
): Plan | null {
  const decided = decisions.filter((one) => one.action === 'cut').at(-1);
  const then = decided?.computed as unknown as Partial<Judged> | undefined;
  const verdict = then?.parts ? (then as Judged) : now;
  const found = verdict ? verdictOf<PartVerdict | DrumVerdict>(verdict, part, parts) : null;
  const machine_to_mm = found?.machine_to?.value_mm ?? null;
  if (found && 'marks' in found) return { outboard: found.marks, inboard: 0, final_mm: found.final_mm, machine_to_mm };
  if (!found?.cleanup) return null;
  return {
    outboard: found.cleanup.outboard_marks,
    inboard: found.cleanup.inboard_marks,
    final_mm: found.cleanup.final_whole_marks_mm,
    machine_to_mm,
  };
}

/** What the passes that were settled on come to, from first touch: what was cut before them counts as well. */
export function planOfPasses(settled: CutPlan, passes: readonly Pass[], machine_to_mm: number | null): Plan {
  const before = passes.filter(
    (one) => one.part_id === settled.part_id && one.plan_id !== settled.id && one.outcome === 'finished',
  );
  const sum = (marks: 'outboard_marks' | 'inboard_marks') =>
    [...before, ...settled.passes].reduce((all, one) => all + one[marks], 0);
  return {
    outboard: sum('outboard_marks'),
    inboard: sum('inboard_marks'),
    final_mm: settled.final_mm,
    machine_to_mm,
  };
}

/** Whole marks of a dial as typed, or null. */
export function marksOf(text: string): number | null {
  return /^[0-9]{1,4}$/.test(text.trim()) ? Number(text.trim()) : null;
}

export type OddMarks = 'no_side' | 'one_side' | 'far_off';

/** Marks that may be a slip: none at all, none on one side of two that was to be cut, or far from the plan. */
export function oddMarks(
  { outboard, inboard }: Pick<Plan, 'outboard' | 'inboard'>,
  plan: Pick<Plan, 'outboard' | 'inboard'> | null,
  faces = 2,
): OddMarks | null {
  if (outboard === 0 && inboard === 0) return 'no_side';
  const asPlanned = plan && (plan.outboard === 0) === (outboard === 0) && (plan.inboard === 0) === (inboard === 0);
  if (faces === 2 && (outboard === 0 || inboard === 0) && !asPlanned) return 'one_side';
  const far = (marks: number, planned: number) => Math.abs(marks - planned) > Math.max(5, planned / 2);
  return plan && (far(outboard, plan.outboard) || far(inboard, plan.inboard)) ? 'far_off' : null;
}
