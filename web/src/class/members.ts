import type { ClassView, Membership, Person } from '../api/schema';

/** Who is in a class now, each once. */
export const presentIds = (memberships: readonly Membership[]): Set<string> =>
  new Set(memberships.filter((one) => !one.until).map((one) => one.person_id));

const byName = (a: Person, b: Person) => a.name.localeCompare(b.name);

export function membersOf(view: ClassView, people: readonly Person[]): Person[] {
  const here = presentIds(view.memberships);
  return people.filter((one) => here.has(one.id)).sort(byName);
}

/** Those who were in it and are no more. */
export function formerOf(view: ClassView, people: readonly Person[]): Person[] {
  const here = presentIds(view.memberships);
  const were = new Set(view.memberships.map((one) => one.person_id));
  return people.filter((one) => were.has(one.id) && !here.has(one.id)).sort(byName);
}

/** Classes in use first, the latest to begin first; the archived ones after them. */
export function inOrder(views: readonly ClassView[]): ClassView[] {
  return [...views].sort(
    (a, b) =>
      Number(a.class.archived) - Number(b.class.archived) ||
      (b.class.starts_on ?? '').localeCompare(a.class.starts_on ?? '') ||
      a.class.name.localeCompare(b.class.name),
  );
}

/** Students of this name who are here already; one of them joins instead of being added a second time. */
export function namesakes(name: string, people: readonly Person[]): Person[] {
  const wanted = name.trim().toLowerCase();
  return people.filter((one) => one.active && one.role === 'student' && one.name.trim().toLowerCase() === wanted);
}

/** Whether the last day of a class has gone by; days as the shop writes them sort as text. */
export const hasEnded = (view: ClassView, today: string): boolean =>
  !view.class.archived && !!view.class.ends_on && view.class.ends_on < today;

const DAY = /^\d{4}-\d{2}-\d{2}$/;

/** A day as typed; null where none is, undefined where it is no day of the calendar. */
export function dayTyped(text: string): string | null | undefined {
  const plain = text.trim();
  if (plain === '') return null;
  const read = new Date(`${plain}T00:00:00Z`);
  return DAY.test(plain) && !Number.isNaN(read.getTime()) && read.toISOString().startsWith(plain) ? plain : undefined;
}
