import { describe, expect, it } from 'vitest';
import type { LatheQueue, QueueLine } from '../../web/src/api/schema';
import { coarse, hoursOf, mayTakeOut, quickOrSlow, restsOn, wholeWait } from '../../web/src/queue/minutes';

const line = (rests_on_plans: boolean, minutes = 20): QueueLine => ({
  entry: { id: 'e', lathe_id: 'l', job_id: 'j', person_id: 'p', left_why: '' },
  job_number: 1,
  vehicle: '',
  waits_for: 'cut',
  minutes,
  minutes_low: null,
  minutes_high: null,
  starts_in_minutes: 0,
  rests_on_plans,
  meanwhile: '',
});
const queue = (...lines: QueueLine[]): LatheQueue => ({
  lathe_id: 'l',
  handling_min: 10,
  cut_min: 6,
  rests_on_parts: 0,
  lines,
});

describe('the minutes of a queue', () => {
  it('are said no finer than they are known', () => {
    expect([0, 0.4, 3.6, 9.4, 12.4, 12.6, 58].map(coarse)).toEqual([1, 1, 4, 9, 10, 15, 60]);
    expect(hoursOf(83)).toEqual({ hours: 1, minutes: 25 });
    expect(hoursOf(58)).toEqual({ hours: 1, minutes: 0 });
  });

  it('are told as quick and slow, where finished jobs say how far these lie apart', () => {
    expect(quickOrSlow({ ...line(true), minutes_low: 12.8, minutes_high: 25.1 })).toEqual({ low: 12, high: 26 });
    expect(quickOrSlow({ ...line(true), minutes_low: 0.2, minutes_high: 0.8 })).toBe(null);
    expect(quickOrSlow(line(true))).toBe(null);
  });

  it('say whether they rest on plans', () => {
    expect(restsOn(queue(line(true), line(true)))).toBe('plans');
    expect(restsOn(queue(line(true), line(false)))).toBe('some_plans');
    expect(restsOn(queue(line(false)))).toBe('no_plan');
    expect(wholeWait(queue(line(true, 12), line(false, 30)))).toBe(42);
  });

  it('are one’s own place to give up, or whoever leads', () => {
    expect(mayTakeOut(line(true), 'p', false)).toBe(true);
    expect(mayTakeOut(line(true), 'q', false)).toBe(false);
    expect(mayTakeOut(line(true), 'q', true)).toBe(true);
  });
});
