import type { Decision, Part } from '../api/schema';
import { type VerdictAnswer, verdictOf } from '../verdict/answer';

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
  now: VerdictAnswer | null,
  part: Part,
  parts: readonly Part[],
): Plan | null {
  const decided = decisions.filter((one) => one.action === 'cut').at(-1);
  const then = decided?.computed as unknown as Partial<VerdictAnswer> | undefined;
  const verdict = then?.parts ? (then as VerdictAnswer) : now;
  const found = verdict ? verdictOf(verdict, part, parts) : null;
  if (!found?.cleanup) return null;
  return {
    outboard: found.cleanup.outboard_marks,
    inboard: found.cleanup.inboard_marks,
    final_mm: found.cleanup.final_whole_marks_mm,
    machine_to_mm: found.machine_to?.value_mm ?? null,
  };
}

/** Whole marks of a dial as typed, or null. */
export function marksOf(text: string): number | null {
  return /^[0-9]{1,4}$/.test(text.trim()) ? Number(text.trim()) : null;
}
