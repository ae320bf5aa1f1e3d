import type { Week, WeekCorner, WeekHelp, WeekPerson, WeekShare } from '../api/schema';
import { grouped, rounded } from '../show/wear';

/** So few tell nothing of what they are a share of; as the shop has it. Common practice, no source. */
export const ENOUGH = 10;

export const tells = (share: WeekShare): boolean => share.of >= ENOUGH;

export const partOf = (share: WeekShare): number => (share.of === 0 ? 0 : share.count / share.of);

/** Those that tell something first, the largest share before the others; then by how many they rest on. */
export function byShare<T>(all: readonly T[], shareOf: (one: T) => WeekShare): T[] {
  return [...all].sort((a, b) => {
    const [x, y] = [shareOf(a), shareOf(b)];
    return Number(tells(y)) - Number(tells(x)) || partOf(y) - partOf(x) || y.of - x.of;
  });
}

export const sum = (values: readonly number[]): number => values.reduce((all, one) => all + one, 0);

/** A figure of this week beside the same of the week before. */
export interface Beside<K> {
  key: K;
  now: number;
  before: number;
}

/** All that either week has, the largest of this week first. */
export function sideBySide<T, K>(
  now: readonly T[],
  before: readonly T[],
  { key, value }: { key: (one: T) => K; value: (one: T) => number },
): Beside<K>[] {
  const keys = [...new Set([...now, ...before].map(key))];
  const of = (all: readonly T[], wanted: K) => sum(all.filter((one) => key(one) === wanted).map(value));
  return keys
    .map((one) => ({ key: one, now: of(now, one), before: of(before, one) }))
    .filter((one) => one.now > 0 || one.before > 0)
    .sort((a, b) => b.now - a.now || b.before - a.before);
}

export type HelpWith = WeekHelp['what'];

/** How many people need help with each thing, most first. */
export function helpCounts(people: readonly WeekPerson[]): { what: HelpWith; people: number }[] {
  const counts = new Map<HelpWith, number>();
  for (const one of people) {
    for (const what of new Set(one.help.map((help) => help.what))) counts.set(what, (counts.get(what) ?? 0) + 1);
  }
  return [...counts].map(([what, count]) => ({ what, people: count })).sort((a, b) => b.people - a.people);
}

/** Whoever needs help, with most things first. */
export const inNeed = (people: readonly WeekPerson[]): WeekPerson[] =>
  people.filter((one) => one.help.length > 0).sort((a, b) => b.help.length - a.help.length);

export interface UsedCorner {
  insert_id: string;
  corner: WeekCorner;
}

/** The corners that cut, the one that took most metal first. */
export const usedCorners = (week: Week): UsedCorner[] =>
  week.inserts
    .flatMap(({ insert_id, corner_use }) => corner_use.map((corner) => ({ insert_id, corner })))
    .filter(({ corner }) => corner.passes > 0)
    .sort((a, b) => (b.corner.metal_cm3 ?? 0) - (a.corner.metal_cm3 ?? 0) || b.corner.parts - a.corner.parts);

/** Whether nobody worked on anything, and nothing waits. */
export const isEmpty = (week: Week): boolean => week.jobs === 0 && week.waiting.length === 0;

/** Two places of what is not known better. */
export const places2 = (value: number): string => {
  if (value >= 10) return grouped(rounded(value));
  return value === 0 ? '0' : value.toFixed(value >= 1 ? 1 : 2);
};
