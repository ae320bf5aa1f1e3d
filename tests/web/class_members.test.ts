import { describe, expect, it } from 'vitest';
import type { ClassView, Person } from '../../web/src/api/schema';
import { dayTyped, formerOf, hasEnded, inOrder, membersOf, namesakes } from '../../web/src/class/members';
import { dayOf } from '../../web/src/show/time';

const person = (id: string, name: string, rest: Partial<Person> = {}): Person => ({
  id,
  name,
  role: 'student',
  active: true,
  ...rest,
});
const people = [person('b', 'Bo Linden'), person('a', 'Ada Fenn'), person('c', 'Cy Marsh')];
const view = (rest: Partial<ClassView['class']>, memberships: [string, string | null][] = []): ClassView => ({
  class: { id: 'k', name: 'Brakes', term: 'autumn', archived: false, ...rest },
  memberships: memberships.map(([person_id, until], i) => ({ id: String(i), class_id: 'k', person_id, until })),
});

describe('a class', () => {
  it('has those in it by name, and those who left apart, also when one came back', () => {
    const left = '2026-10-01T08:00:00Z';
    const one = view({}, [
      ['b', null],
      ['a', left],
      ['a', null],
      ['c', left],
    ]);
    expect(membersOf(one, people).map(({ id }) => id)).toEqual(['a', 'b']);
    expect(formerOf(one, people).map(({ id }) => id)).toEqual(['c']);
  });

  it('stands before the archived ones, the latest to begin first', () => {
    const all = [
      view({ id: 'old', archived: true, starts_on: '2026-12-01' }),
      view({ id: 'spring', starts_on: '2026-02-01' }),
      view({ id: 'autumn', starts_on: '2026-09-01' }),
    ];
    expect(inOrder(all).map((one) => one.class.id)).toEqual(['autumn', 'spring', 'old']);
  });

  it('has ended on the day after its last, unless it is archived', () => {
    expect(hasEnded(view({ ends_on: '2026-11-25' }), '2026-11-25')).toBe(false);
    expect(hasEnded(view({ ends_on: '2026-11-25' }), '2026-11-26')).toBe(true);
    expect(hasEnded(view({ ends_on: '2026-11-25', archived: true }), '2026-11-26')).toBe(false);
    expect(hasEnded(view({}), '2026-11-26')).toBe(false);
  });

  it('takes in a student of the same name rather than making a second, however it is typed', () => {
    expect(namesakes('  bo LINDEN ', people).map(({ id }) => id)).toEqual(['b']);
    expect(namesakes('Bo', people)).toEqual([]);
    expect(namesakes('Bo Linden', [person('t', 'Bo Linden', { role: 'teacher' })])).toEqual([]);
    expect(namesakes('Bo Linden', [person('x', 'Bo Linden', { active: false })])).toEqual([]);
  });
});

describe('a day', () => {
  it('is one of the calendar, nothing, or refused', () => {
    expect(dayTyped(' 2028-02-29 ')).toBe('2028-02-29');
    expect(dayTyped('')).toBeNull();
    for (const text of ['2027-02-29', '2026-13-01', '1.9.2026', '2026-9-1']) expect(dayTyped(text)).toBeUndefined();
  });

  it('is written as the shop writes it', () => {
    expect(dayOf(new Date(2026, 0, 5, 23, 59))).toBe('2026-01-05');
  });
});
