import { describe, expect, it } from 'vitest';
import {
  blindTo,
  inOrder,
  inUse,
  isComplete,
  minutesEach,
  presetOf,
  readingsEach,
} from '../../web/src/studies/study_plan';

const ids = (count: number, name: string) => Array.from({ length: count }, (_, k) => `${name}${k}`);
const plan = (parts: number, people: number, rounds: number, instruments = 1) => ({
  reference_part_ids: ids(parts, 'part'),
  person_ids: ids(people, 'person'),
  instrument_ids: ids(instruments, 'instrument'),
  repeats: rounds,
});

describe('the plan of a study', () => {
  it('says how many readings each takes, with every instrument, and about how long', () => {
    expect(readingsEach(plan(5, 20, 3))).toBe(15);
    expect(readingsEach(plan(5, 20, 3, 2))).toBe(30);
    expect(minutesEach(plan(5, 20, 3, 2))).toBe(15);
    expect(minutesEach(plan(0, 20, 3))).toBe(1);
  });

  it('stands ready with five parts, all students and a micrometer, three rounds for few and two for many', () => {
    const parts = ids(8, 'part').map((id) => ({ id }));
    const people = ids(3, 'person').map((id, k) => ({ id, role: k ? 'student' : 'teacher' }));
    const instruments = [
      { id: 'dial', kind: 'dial_indicator' },
      { id: 'mic', kind: 'micrometer' },
    ];
    const few = presetOf(parts, people, instruments);
    expect(few).toEqual({
      reference_part_ids: ids(5, 'part'),
      person_ids: ['person1', 'person2'],
      instrument_ids: ['mic'],
      repeats: 3,
    });
    const many = ids(20, 'person').map((id) => ({ id, role: 'student' }));
    expect(presetOf(parts, many, instruments).repeats).toBe(2);
    expect(presetOf([], [], [])).toEqual({ reference_part_ids: [], person_ids: [], instrument_ids: [], repeats: 3 });
  });

  it('says what one person or one round will never tell', () => {
    const told = { has_tolerance: true };
    expect(blindTo({ ...plan(5, 1, 3, 2), ...told })).toEqual(['one_person']);
    expect(blindTo({ ...plan(5, 4, 1, 2), ...told })).toEqual(['one_round']);
    expect(blindTo({ ...plan(2, 4, 3), has_tolerance: false })).toEqual([
      'few_parts',
      'one_instrument',
      'no_tolerance',
    ]);
    expect(blindTo({ ...plan(5, 4, 3, 2), ...told })).toEqual([]);
  });

  it('can be made with two parts, one person, one instrument and two rounds, and a name', () => {
    expect(isComplete({ ...plan(2, 1, 2), name: 'first' })).toBe(true);
    for (const less of [plan(1, 1, 2), plan(2, 0, 2), plan(2, 1, 1), plan(2, 1, 2, 0)]) {
      expect(isComplete({ ...less, name: 'first' })).toBe(false);
    }
    expect(isComplete({ ...plan(2, 1, 2), name: ' ' })).toBe(false);
  });

  it('lists open studies before closed ones, the newest first', () => {
    const of = (id: string, closed: boolean) => ({ study: { id, closed } });
    const sorted = inOrder([of('1', false), of('2', true), of('3', false), of('4', true)]);
    expect(sorted.map((one) => one.study.id)).toEqual(['3', '1', '4', '2']);
  });

  it('asks for nothing that went out of use since it was begun', () => {
    const here = { parts: [{ id: 'part1' }], people: [{ id: 'person0' }], instruments: [] };
    expect(inUse({ ...plan(2, 1, 3), name: 'first' }, here)).toEqual({
      name: 'first',
      reference_part_ids: ['part1'],
      person_ids: ['person0'],
      instrument_ids: [],
      repeats: 3,
    });
  });
});
