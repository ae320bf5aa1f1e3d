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
 * The verdict that was decided upon: readings that came in since do not change what was decided. Before a decision, the
 * verdict as it stands.
 */
function verdictFor(
  decisions: readonly Decision[],
  now: Judged | null,
  part: Part,
  parts: readonly Part[],
): PartVerdict | DrumVerdict | null {
  const decided = decisions.filter((one) => one.action === 'cut').at(-1);
  const then = decided?.computed as unknown as Partial<Judged> | undefined;
  const verdict = then?.parts ? (then as Judged) : now;
  return verdict ? verdictOf<PartVerdict | DrumVerdict>(verdict, part, parts) : null;
}

type OfPart = Parameters<typeof verdictFor>;

export const machineToFor = (...of: OfPart): number | null => verdictFor(...of)?.machine_to?.value_mm ?? null;

/** The least cut of the verdict in force; null where there is none, or nothing has to come off. */
export function planFor(...of: OfPart): Plan | null {
  const found = verdictFor(...of);
  const machine_to_mm = machineToFor(...of);
  if (found && 'marks' in found) {
    return found.marks > 0 ? { outboard: found.marks, inboard: 0, final_mm: found.final_mm, machine_to_mm } : null;
  }
  const { outboard_marks = 0, inboard_marks = 0, final_whole_marks_mm = 0 } = found?.cleanup ?? {};
  if (outboard_marks === 0 && inboard_marks === 0) return null;
  return { outboard: outboard_marks, inboard: inboard_marks, final_mm: final_whole_marks_mm, machine_to_mm };
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
