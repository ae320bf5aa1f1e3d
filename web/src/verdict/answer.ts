import type { Action, Finding, JobFile, Lathe, Part } from '../api/schema';

/** What `calc verdict` answers, as far as the page shows it. Lengths in the unit of their name. */
export interface Posterior {
  median: number;
  low95: number;
  high95: number;
}

export interface LengthLimit {
  value_mm: number;
  source: string;
}

export interface Reason {
  code: string;
  text: string;
  part?: string;
  value?: number | null;
  limit?: number | null;
  unit?: string;
  p?: number | null;
  source?: string;
}

export interface NextMeasurement {
  kind: string;
  part?: string;
  text: string;
  angles_deg?: number[];
  repeats?: number;
  p_now?: number;
  p_after?: number;
  p_settles?: number;
  method?: string;
}

export interface WearRoom extends Posterior {
  unit: string;
}

export interface CleanupAnswer {
  outboard_cut_um: number;
  inboard_cut_um: number;
  outboard_marks: number;
  inboard_marks: number;
  final_mm: number;
  final_whole_marks_mm: number;
  wobble_um?: number;
  start_min_mm?: number;
  over_machine_to_mm?: number | null;
  over_discard_mm?: number | null;
  cuts_left?: number | null;
}

export interface ThicknessAnswer {
  min_mm: number;
  mean_mm: number;
  max_mm?: number;
  variation_mm: number;
  min_angle_deg?: number;
  true_variation_mm?: Posterior;
  points?: { angle_deg: number; mean_mm: number }[];
}

export interface PartVerdict {
  name: string;
  action: string;
  p: number;
  thickness: ThicknessAnswer;
  runout?: { runout_um: number } | null;
  cleanup?: CleanupAnswer | null;
  runout_assumed?: boolean;
  machine_to?: LengthLimit | null;
  machine_to_is_house_rule?: boolean;
  p_above_discard?: number | null;
  p_variation_within?: number | null;
  p_runout_within?: number | null;
  p_scoring_within?: number | null;
  p_final_over_machine_to?: number | null;
  final_mm?: Posterior | null;
  wear_room_uncut?: WearRoom | null;
  wear_room_cut?: WearRoom | null;
  reasons: Reason[];
}

export interface VerdictAnswer {
  action: string;
  p: number;
  reasons: Reason[];
  next_measurement?: NextMeasurement | null;
  parts: PartVerdict[];
}

/** The API writes `measure_again`, a computation `measure again`: one word here. */
export function actionOf(word: string): Action {
  const known: readonly Action[] = ['leave', 'cut', 'replace', 'measure_again'];
  const found = known.find((action) => action === word.replace(' ', '_'));
  return found ?? 'measure_again';
}

/** The verdict's part that speaks of this rotor: by the side's name, or by its place where names are free. */
export function verdictOf(verdict: VerdictAnswer, part: Part, parts: readonly Part[]): PartVerdict | null {
  const named = verdict.parts.find((one) => one.name.toLowerCase().includes(part.side));
  return named ?? verdict.parts[parts.findIndex((one) => one.id === part.id)] ?? null;
}

/** The sentence that decides, first. */
export const leadReason = (verdict: Pick<VerdictAnswer, 'reasons'>): Reason | null => verdict.reasons[0] ?? null;

/**
 * Which actions a person may choose instead, and why one of them may not be: a rotor whose lowest reading is at or
 * under discard may not be cut, whoever asks. The shop holds to this as well.
 */
export function belowDiscard(verdict: VerdictAnswer, parts: readonly Part[]): Part[] {
  return parts.filter((part) => {
    const discard_nm = part.limits.discard?.value.nm;
    const found = verdictOf(verdict, part, parts);
    return discard_nm !== undefined && found !== null && found.thickness.min_mm <= discard_nm / 1e6 + 1e-9;
  });
}

/** Where the next measurement is made: the page, the rotor, what is gone round, and the angle to begin at. */
export interface Way {
  step: 'before' | 'limits';
  query: Record<string, string>;
}

export function wayTo(next: NextMeasurement | null | undefined, parts: readonly Part[]): Way {
  const named = parts.find((part) => (next?.part ?? '').toLowerCase().includes(part.side)) ?? parts[0];
  const query: Record<string, string> = named ? { part: named.side } : {};
  if (next?.kind === 'find_limit') return { step: 'limits', query };
  if (next?.kind.startsWith('runout')) query.of = 'runout_outboard';
  if (next?.kind.startsWith('scoring')) query.of = 'scoring';
  const [angle] = next?.angles_deg ?? [];
  if (angle !== undefined) query.angle = String(angle);
  return { step: 'before', query };
}

export const rejects = (file: Pick<JobFile, 'findings'>): Finding[] =>
  file.findings.filter((one) => one.judgement === 'reject' && !one.withdrawn_at);

/** Depth of one mark on a dial that nobody has told of: a thousandth of an inch, as the shop reckons with as well. */
const UNTOLD_DIAL_UM = 25.4;

export const dialOf = (lathe: Lathe | null | undefined): number => lathe?.dial_um_per_mark ?? UNTOLD_DIAL_UM;
