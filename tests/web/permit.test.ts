import { describe, expect, it } from 'vitest';
import type { PermitNeed, PermitState, SafetyQuestion } from '../../web/src/api/schema';
import { asksTeacher } from '../../web/src/cut/asks_teacher';
import { isSignedFor } from '../../web/src/permit/cuts_of';
import { askedBy, asksAnew, nextOpen, rightOf } from '../../web/src/permit/points';
import { ruleFigures, ruleTexts } from '../../web/src/permit/rule_texts';
import { daysLeft, lapsesSoon, metOf, nextThing, shareOf, standingOf } from '../../web/src/permit/standing';

const need = (what: PermitNeed['what'], done: number, of: number): PermitNeed => ({ what, done, of, text: '' });
const state = (needs: PermitNeed[], rest: Partial<PermitState> = {}): PermitState => {
  const missing = needs.filter(({ done, of }) => done < of);
  const open = { person_id: 'p', leads: false, stands: false, lapses_on: null, permit: null };
  return { ...open, needs, missing, is_ready: missing.length === 0, ...rest };
};
const given = (rest: object = {}) => ({
  id: 'g',
  person_id: 'p',
  given_by_person_id: 't',
  at: '2026-09-01T08:00:00Z',
  lapses_on: '2026-11-25',
  reason: '',
  withdrawn_why: '',
  ...rest,
});

describe('a permit', () => {
  it('says what ended it before it says what is missing', () => {
    const open = [need('safety_points', 1, 2)];
    expect(standingOf(state(open))).toBe('missing');
    expect(standingOf(state([]))).toBe('ready');
    expect(standingOf(state(open, { permit: given() }))).toBe('lapsed');
    expect(standingOf(state(open, { permit: given({ withdrawn_at: '2026-09-02T08:00:00Z' }) }))).toBe('withdrawn');
    expect(standingOf(state(open, { permit: given(), stands: true }))).toBe('stands');
    expect(standingOf(state(open, { leads: true, stands: true }))).toBe('leads');
  });

  it('names one thing to do next: know, then measure, then cut, then ask', () => {
    const all = [
      need('supervised_cuts', 0, 2),
      need('steady_hand', 0, 1),
      need('measuring', 3, 4),
      need('safety_points', 9, 10),
    ];
    expect(nextThing(state(all))).toBe('safety_points');
    expect(nextThing(state(all.slice(0, 3)))).toBe('measuring');
    expect(nextThing(state(all.slice(0, 2)))).toBe('measuring');
    expect(nextThing(state(all.slice(0, 1)))).toBe('supervised_cuts');
    expect(nextThing(state([]))).toBe('ask_teacher');
    expect(nextThing(state(all, { stands: true }))).toBe('nothing');
  });

  it('counts what is there, and fills a bar no further than its end', () => {
    expect(metOf(state([need('measuring', 5, 4), need('supervised_cuts', 1, 2)]))).toEqual({ met: 1, of: 2 });
    expect(shareOf(need('measuring', 5, 4))).toBe(1);
    expect(shareOf(need('supervised_cuts', 1, 4))).toBe(0.25);
    expect(shareOf(need('safety_points', 0, 0))).toBe(1);
  });

  it('counts its last day as one on which it stands, and says when that is near', () => {
    expect(daysLeft('2026-11-26', '2026-11-26')).toBe(1);
    expect(daysLeft('2027-03-29', '2027-03-28')).toBe(2);
    const stands = (lapses_on: string) => state([], { stands: true, lapses_on });
    expect(lapsesSoon(stands('2026-12-09'), '2026-11-26')).toBe(true);
    expect(lapsesSoon(stands('2026-12-10'), '2026-11-26')).toBe(false);
    expect(lapsesSoon(state([], { lapses_on: '2026-11-25' }), '2026-11-26')).toBe(false);
  });

  it('that is wanting at the cut is a teacher’s to sign for; any other refusal is not', () => {
    expect(asksTeacher('needs_teacher')).toBe(false);
    expect(asksTeacher('needs_permit')).toBe(true);
    expect(asksTeacher('out_of_range')).toBe(false);
  });
});

describe('the safety points', () => {
  const point = (id: string, was_right?: boolean): SafetyQuestion => ({
    safety_point_id: id,
    question: '',
    choices: [],
    answered: was_right === undefined ? null : { choice: 0, was_right, at: '', reason: '' },
  });

  it('go on with the next that is open or was answered wrong, and come round to those before', () => {
    const all = [point('a', false), point('b', true), point('c'), point('d', true)];
    expect(nextOpen(all, null)?.safety_point_id).toBe('a');
    expect(nextOpen(all, 'a')?.safety_point_id).toBe('c');
    expect(nextOpen(all, 'c')?.safety_point_id).toBe('a');
    expect(nextOpen([point('a', true)], 'a')).toBeNull();
    expect(rightOf(all)).toBe(2);
  });
});

describe('the rule', () => {
  const rule = {
    version: 3,
    needs_safety_points: true,
    needs_measuring: true,
    share_within: 0.8,
    sd_at_most_nm: 3000,
    supervised_cuts: 2,
    lapses_after_days: 365,
  };

  it('is read back as it was written', () => {
    const texts = ruleTexts(rule, 'mm');
    expect(texts).toMatchObject({ share: '80', sd: '0.003', cuts: '2', days: '365' });
    expect(ruleFigures(texts)).toEqual({ share_within: 0.8, supervised_cuts: 2, lapses_after_days: 365 });
  });

  it('takes no figure that is none', () => {
    const bad = { ...ruleTexts(rule, 'mm'), share: '101', cuts: '2.5', days: '0' };
    expect(ruleFigures(bad)).toEqual({ share_within: null, supervised_cuts: null, lapses_after_days: null });
  });
});

describe('a safety point that is changed', () => {
  const point = { question: 'Where is the stop?', choices: ['left', 'right', 'nowhere'], right_choice: 1 };
  it('asks everybody anew where its question, a choice or the right one is another', () => {
    expect(asksAnew(point, { ...point, choices: [' left', 'right ', 'nowhere', ''] })).toBe(false);
    expect(asksAnew(point, { ...point, question: 'Where is the stop button?' })).toBe(true);
    expect(asksAnew(point, { ...point, choices: ['left', 'right', 'behind'] })).toBe(true);
    expect(asksAnew(point, { ...point, choices: ['left', 'right'] })).toBe(true);
    expect(asksAnew(point, { ...point, right_choice: 0 })).toBe(true);
  });
  it('counts the right choice among those that are filled, and has none where it is empty', () => {
    expect(askedBy({ question: ' q ', choices: ['', ' a', 'b'], right_choice: 2 })).toEqual({
      question: 'q',
      choices: ['a', 'b'],
      right_choice: 1,
    });
    expect(askedBy({ question: 'q', choices: ['', 'a'], right_choice: 0 }).right_choice).toBe(-1);
  });
});

it('a cut that was signed lets its own job go on, for twelve hours', () => {
  const at = '2026-09-01T08:00:00Z';
  const cuts = [{ id: 'c', person_id: 'p', job_id: 'job', note: '', signed_by_person_id: 't', at }];
  const later = (hours: number) => Date.parse(at) + hours * 3_600_000;
  expect(isSignedFor(cuts, 'job', later(11.9))).toBe(true);
  expect(isSignedFor(cuts, 'job', later(12.1))).toBe(false);
  expect(isSignedFor(cuts, 'another', later(1))).toBe(false);
});
