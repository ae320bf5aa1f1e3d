import type { Competence, Evidence, EvidenceLevel } from '../api/schema';

/** From the least to the most that can be shown. */
export const LEVELS: readonly EvidenceLevel[] = ['seen', 'with_help', 'alone', 'signed'];

const rank = (level: EvidenceLevel) => LEVELS.indexOf(level);
const counts = (one: Evidence) => !one.withdrawn_at;

/** The highest that was shown and not withdrawn; the newest of that level. */
export function reached(
  evidence: readonly Evidence[],
  { person_id, competence_id }: { person_id: string; competence_id: string },
): Evidence | null {
  let best: Evidence | null = null;
  for (const one of evidence) {
    if (!counts(one) || one.person_id !== person_id || one.competence_id !== competence_id) continue;
    const higher = best === null || rank(one.level) > rank(best.level);
    if (higher || (best?.level === one.level && (one.at ?? '') >= (best.at ?? ''))) best = one;
  }
  return best;
}

/** Newest first. */
export const newestFirst = (evidence: readonly Evidence[]): Evidence[] =>
  [...evidence].sort((a, b) => (b.at ?? '').localeCompare(a.at ?? ''));

/** In use, in the teacher's order; what is no longer in use only where somebody has shown it. */
export const shownCompetences = (all: readonly Competence[], evidence: readonly Evidence[]): Competence[] =>
  all
    .filter((one) => one.active || evidence.some((shown) => counts(shown) && shown.competence_id === one.id))
    .sort((a, b) => (a.position ?? 0) - (b.position ?? 0));

/** How many of the list somebody has signed. */
export const signedCount = (competences: readonly Competence[], evidence: readonly Evidence[], person_id: string) =>
  competences.filter((one) => reached(evidence, { person_id, competence_id: one.id })?.level === 'signed').length;

/** The place for a new one at the end of the list. */
export const lastPlace = (all: readonly Competence[]): number =>
  all.reduce((most, one) => Math.max(most, one.position ?? 0), 0) + 1;
