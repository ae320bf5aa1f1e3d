import type { PermitRule, Unit } from '../api/schema';
import { numberOf, percentOf, shareOf, textOfNm } from '../shop/numbers';

export interface RuleTexts {
  needs_safety_points: boolean;
  needs_measuring: boolean;
  share: string;
  sd: string;
  cuts: string;
  /** Empty: not asked. */
  practice: string;
  days: string;
}

export const ruleTexts = (rule: PermitRule, unit: Unit): RuleTexts => ({
  needs_safety_points: rule.needs_safety_points,
  needs_measuring: rule.needs_measuring,
  share: percentOf(rule.share_within),
  sd: textOfNm(rule.sd_at_most_nm, unit),
  cuts: String(rule.supervised_cuts),
  practice: rule.practice_points == null ? '' : String(rule.practice_points),
  days: String(rule.lapses_after_days),
});

const MOST_CUTS = 50;
const MOST_POINTS = 100;
const MOST_DAYS = 3650;
const whole = (text: string, least: number, most: number): number | null => {
  const value = /^\d{1,5}$/.test(text.trim()) ? Number(text) : Number.NaN;
  return value >= least && value <= most ? value : null;
};

/** Points that practice has to reach; null where it is not asked, undefined where no number stands there. */
export function practicePoints({ practice }: Pick<RuleTexts, 'practice'>): number | null | undefined {
  return practice.trim() === '' ? null : (whole(practice, 1, MOST_POINTS) ?? undefined);
}

/** The figures that stand in a rule's fields, null for those that are none. The length is the shop's to read. */
export function ruleFigures(texts: RuleTexts) {
  const percent = numberOf(texts.share);
  return {
    share_within: percent !== null && percent >= 0 && percent <= 100 ? shareOf(percent) : null,
    supervised_cuts: whole(texts.cuts, 0, MOST_CUTS),
    lapses_after_days: whole(texts.days, 1, MOST_DAYS),
  };
}
