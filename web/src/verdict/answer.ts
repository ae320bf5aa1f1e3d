import type { Action, Assessment, Part } from '../api/schema';
import type { components } from '../api/types';

type Schemas = components['schemas'];

export type VerdictAnswer = Schemas['CalcVerdictOutput'];
export type DrumsAnswer = NonNullable<Assessment['drums']>;
/** What was computed, of rotors or of drums. */
export type Judged = VerdictAnswer | DrumsAnswer;
export type PartVerdict = Schemas['CalcPartVerdict'];
export type DrumVerdict = Schemas['CalcDrumVerdict'];
export type Reason = Schemas['CalcReason'];
export type NextMeasurement = Schemas['CalcNextMeasurement'];

/** The API writes `measure_again`, a computation `measure again`: one word here. */
export function actionOf(word: string): Action {
  const known: readonly Action[] = ['leave', 'cut', 'replace', 'measure_again'];
  const found = known.find((action) => action === word.replace(' ', '_'));
  return found ?? 'measure_again';
}

export const judgedOf = (assessed: Assessment | null): Judged | null => assessed?.verdict ?? assessed?.drums ?? null;

/** The verdict's part that speaks of this rotor or drum: by the side's name, or by its place where names are free. */
export function verdictOf<P extends { name: string }>(
  verdict: { parts: readonly P[] },
  part: Part,
  parts: readonly Part[],
): P | null {
  const named = verdict.parts.find((one) => one.name.toLowerCase().includes(part.side));
  return named ?? verdict.parts[parts.findIndex((one) => one.id === part.id)] ?? null;
}

/** The sentence that decides, first. */
export const leadReason = (verdict: Pick<Judged, 'reasons'>): Reason | null => verdict.reasons[0] ?? null;

/** The metal that is worn least far from discard, of a rotor its thinnest spot, of a drum its widest with a minus. */
const left_mm = (found: PartVerdict | DrumVerdict) => ('thickness' in found ? found.thickness.min_mm : -found.max_mm);

/**
 * Which parts a person may not choose to cut, whoever asks: a rotor whose lowest reading is at or under discard, a drum
 * whose largest is at or over it. The shop holds to this as well.
 */
export function pastDiscard(verdict: Judged, parts: readonly Part[]): Part[] {
  return parts.filter((part) => {
    const discard_nm = part.limits.discard?.value.nm;
    const found = verdictOf<PartVerdict | DrumVerdict>(verdict, part, parts);
    if (discard_nm === undefined || found === null) return false;
    const way = 'thickness' in found ? 1 : -1;
    return left_mm(found) <= (way * discard_nm) / 1e6 + 1e-9;
  });
}

/** Where the next measurement is made: the page, the rotor, what is gone round, and the angle to begin at. */
export interface Way {
  step: 'before' | 'limits';
  query: Record<string, string>;
}

export function wayTo(
  next: Pick<NextMeasurement, 'kind' | 'part' | 'angles_deg'> | null | undefined,
  parts: readonly Part[],
): Way {
  const named = parts.find((part) => (next?.part ?? '').toLowerCase().includes(part.side)) ?? parts[0];
  const query: Record<string, string> = named ? { part: named.side } : {};
  if (next?.kind === 'find_limit') return { step: 'limits', query };
  if (next?.kind.startsWith('runout')) query.of = 'runout_outboard';
  if (next?.kind.startsWith('scoring')) query.of = 'scoring';
  const [angle] = next?.angles_deg ?? [];
  if (angle !== undefined) query.angle = String(angle);
  return { step: 'before', query };
}
