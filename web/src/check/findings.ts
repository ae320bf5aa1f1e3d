import { capital } from '../show/typeset';

interface Weighed {
  p: number;
}

const LIKELY = 0.15;

/** Those that are worth reading first, the most probable always among them; and the rest. */
export function likelyFirst<T extends Weighed>(findings: readonly T[]): { likely: T[]; rest: T[] } {
  const likely = findings.filter((one, i) => i === 0 || one.p >= LIKELY);
  return { likely, rest: findings.filter((one) => !likely.includes(one)) };
}

/** The words up to a semicolon with which two or more of the texts begin, to be said once; else empty. */
export function sharedLead(texts: readonly string[]): string {
  const leads = texts.map((text) => text.slice(0, text.lastIndexOf('; ') + 1)).filter(Boolean);
  return leads.find((lead) => texts.filter((text) => text.startsWith(lead)).length > 1) ?? '';
}

/** A text without the words that were said before, begun anew. */
export function withoutLead(text: string, lead: string): string {
  if (!lead || !text.startsWith(lead)) return text;
  const rest = text.slice(lead.length).trim();
  return rest === '' ? text : capital(rest);
}
