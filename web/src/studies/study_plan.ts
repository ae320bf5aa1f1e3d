import type { Study } from '../api/schema';

/** What a study asks for, before anybody has read. */
export interface Planned {
  reference_part_ids: readonly string[];
  person_ids: readonly string[];
  instrument_ids: readonly string[];
  repeats: number;
}

/** Of one reading, with taking up the part and putting it back. Common practice, no source. */
const SECONDS_A_READING = 30;

export const LEAST_ROUNDS = 2;
export const MOST_ROUNDS = 10;
/** How many parts and rounds stand here at first. Common practice, no source. */
const FIRST_PARTS = 5;
const FIRST_ROUNDS = 3;
const FIRST_ROUNDS_OF_MANY = 2;
/** With so many people two rounds leave freedom enough for what one hand repeats. */
const MANY_PEOPLE = 8;

export const readingsEach = (plan: Planned) =>
  plan.reference_part_ids.length * plan.instrument_ids.length * plan.repeats;

export const minutesEach = (plan: Planned) => Math.max(1, Math.round((readingsEach(plan) * SECONDS_A_READING) / 60));

/** What a study so planned will never be able to tell. */
export type Blind = 'one_person' | 'one_round' | 'few_parts' | 'one_instrument' | 'no_tolerance';

export function blindTo(plan: Planned & { has_tolerance: boolean }): Blind[] {
  const all: Blind[] = [];
  if (plan.person_ids.length === 1) all.push('one_person');
  if (plan.repeats < LEAST_ROUNDS) all.push('one_round');
  if (plan.reference_part_ids.length > 0 && plan.reference_part_ids.length < FIRST_PARTS) all.push('few_parts');
  if (plan.instrument_ids.length === 1) all.push('one_instrument');
  if (!plan.has_tolerance) all.push('no_tolerance');
  return all;
}

/** A sensible beginning: the first parts, everybody who learns here, the first micrometer. */
export function presetOf(
  parts: readonly { id: string }[],
  people: readonly { id: string; role: string }[],
  instruments: readonly { id: string; kind: string }[],
): Planned {
  const students = people.filter((one) => one.role === 'student');
  const micrometer = instruments.find((one) => one.kind === 'micrometer') ?? instruments[0];
  return {
    reference_part_ids: parts.slice(0, FIRST_PARTS).map((one) => one.id),
    person_ids: students.map((one) => one.id),
    instrument_ids: micrometer ? [micrometer.id] : [],
    repeats: students.length >= MANY_PEOPLE ? FIRST_ROUNDS_OF_MANY : FIRST_ROUNDS,
  };
}

interface InUse {
  parts: readonly { id: string }[];
  people: readonly { id: string }[];
  instruments: readonly { id: string }[];
}

/** A plan that was begun some time ago, without what is no longer in use. */
export function inUse<P extends Planned>(plan: P, { parts, people, instruments }: InUse): P {
  const of = (ids: readonly string[], all: readonly { id: string }[]) =>
    ids.filter((id) => all.some((one) => one.id === id));
  return {
    ...plan,
    reference_part_ids: of(plan.reference_part_ids, parts),
    person_ids: of(plan.person_ids, people),
    instrument_ids: of(plan.instrument_ids, instruments),
  };
}

/** Whether it can be made: the shop wants two parts, one person, one instrument and two rounds at least. */
export const isComplete = (plan: Planned & { name: string }) =>
  plan.name.trim() !== '' &&
  plan.reference_part_ids.length >= 2 &&
  plan.person_ids.length >= 1 &&
  plan.instrument_ids.length >= 1 &&
  plan.repeats >= LEAST_ROUNDS;

/** Open ones first, the newest of each first. */
export const inOrder = <T extends { study: Pick<Study, 'closed' | 'id'> }>(views: readonly T[]): T[] =>
  [...views].sort((a, b) => Number(a.study.closed) - Number(b.study.closed) || (a.study.id < b.study.id ? 1 : -1));
