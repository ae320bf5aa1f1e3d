import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Week, WeekPerson, WeekShare } from '../../web/src/api/schema';
import { hoursAndMinutes } from '../../web/src/show/time';
import {
  byShare,
  helpCounts,
  inNeed,
  isEmpty,
  places2,
  sideBySide,
  tells,
  usedCorners,
} from '../../web/src/week/figures';
import { asked, isWrong, keepPrices, priceOf, prices, sumText } from '../../web/src/week/prices';
import { after, before, inShop, lastDay, spanOf } from '../../web/src/week/span';

const share = (count: number, of: number): WeekShare => ({ count, of, low95: 0, high95: 1 });
const person = (person_id: string, help: WeekPerson['help'] = []): WeekPerson => ({
  person_id,
  jobs: 0,
  readings: 0,
  questioned: 0,
  taken_back: 0,
  decided_otherwise: 0,
  stopped_passes: 0,
  help,
  job_numbers: [],
});
const help = (what: WeekPerson['help'][number]['what']) => ({ what, text: '', job_numbers: [], study_id: null });

describe('a week of the calendar', () => {
  const thursday = new Date(2026, 10, 26, 14, 30);

  it('begins on the Monday on or before the day in the address, and on the present one without a day', () => {
    expect(spanOf(undefined, thursday).day).toBe('2026-11-23');
    expect(spanOf('2026-11-18', thursday).day).toBe('2026-11-16');
    expect(spanOf('2026-11-16', thursday).day).toBe('2026-11-16');
    expect(spanOf('2026-11-22', thursday).day, 'a Sunday').toBe('2026-11-16');
  });

  it('is the present one for a day that does not exist, is no day, or is still to come', () => {
    for (const text of ['2026-02-30', 'yesterday', '', '2026-11-27', '2027-01-01']) {
      expect(spanOf(text, thursday).day).toBe('2026-11-23');
    }
  });

  it('has seven days by the calendar whatever the clocks do, and ends where the next begins', () => {
    for (const day of ['2026-03-25', '2026-10-21', '2026-06-10']) {
      const span = spanOf(day, thursday);
      expect(span.from.getHours() + span.to.getHours()).toBe(0);
      expect(before(span).to).toEqual(span.from);
      expect(Math.round((span.to.getTime() - span.from.getTime()) / 86_400_000)).toBe(7);
      expect(lastDay(span).getDay()).toBe(0);
      expect(inShop(span)).toEqual({ from: span.from.toISOString(), to: span.to.toISOString() });
    }
  });

  it('leads back without end and forward to the present week alone', () => {
    const present = spanOf(undefined, thursday);
    expect(after(present, thursday)).toBeNull();
    const earlier = before(before(present));
    expect(earlier.day).toBe('2026-11-09');
    expect(after(earlier, thursday)?.day).toBe('2026-11-16');
    expect(after(before(present), thursday)?.day).toBe('2026-11-23');
    expect(after(before(present), present.from), 'at midnight of Monday').not.toBeNull();
  });
});

describe('figures of a week', () => {
  it('stand beside the week before, the largest of this week first, and none where both are nothing', () => {
    const rows = sideBySide(
      [
        { work: 'cutting', minutes: 20 },
        { work: 'measuring', minutes: 50 },
        { work: 'closing', minutes: 0 },
      ],
      [
        { work: 'deciding', minutes: 5 },
        { work: 'cutting', minutes: 90 },
      ],
      { key: (one) => one.work, value: (one) => one.minutes },
    );
    expect(rows).toEqual([
      { key: 'measuring', now: 50, before: 0 },
      { key: 'cutting', now: 20, before: 90 },
      { key: 'deciding', now: 0, before: 5 },
    ]);
  });

  it('put a share that rests on ten or more before any that does not', () => {
    expect(tells(share(0, 10))).toBe(true);
    expect(tells(share(9, 9))).toBe(false);
    const ordered = byShare([share(9, 9), share(1, 20), share(2, 20), share(0, 40), share(0, 10)], (one) => one);
    expect(ordered.map((one) => [one.count, one.of])).toEqual([
      [2, 20],
      [1, 20],
      [0, 40],
      [0, 10],
      [9, 9],
    ]);
  });

  it('count each person once for each thing, and put whoever needs most first', () => {
    const people = [
      person('a', [help('permit')]),
      person('b'),
      person('c', [help('reading'), help('permit'), help('permit')]),
    ];
    expect(helpCounts(people)).toEqual([
      { what: 'permit', people: 2 },
      { what: 'reading', people: 1 },
    ]);
    expect(inNeed(people).map((one) => one.person_id)).toEqual(['c', 'a']);
  });

  it('leave corners out that cut nothing, and put the most metal first', () => {
    const corner = (number: number, passes: number, metal_cm3: number | null) => ({
      number,
      condition: 'sharp' as const,
      used_m: 0,
      passes,
      parts: passes,
      cut_m: 0,
      metal_cm3,
      job_numbers: [],
    });
    const inserts = [
      { insert_id: 'x', corner_use: [corner(1, 0, null), corner(2, 1, 3)] },
      { insert_id: 'y', corner_use: [corner(1, 2, null), corner(2, 4, 7)] },
    ];
    const used = usedCorners({ inserts } as unknown as Week);
    expect(used.map((one) => `${one.insert_id}${one.corner.number}`)).toEqual(['y2', 'x2', 'y1']);
  });

  it('are told in hours and whole minutes, and in two places', () => {
    expect(hoursAndMinutes(59.6)).toEqual({ hours: 1, minutes: 0 });
    expect(hoursAndMinutes(0.4)).toEqual({ hours: 0, minutes: 0 });
    expect(hoursAndMinutes(150)).toEqual({ hours: 2, minutes: 30 });
    expect([0, 0.084, 1.25, 9.96, 71.96, 154.2].map(places2)).toEqual(['0', '0.08', '1.3', '10.0', '72', '150']);
  });

  it('make an empty week only where nobody worked and nothing waits', () => {
    expect(isEmpty({ jobs: 0, waiting: [] } as unknown as Week)).toBe(true);
    expect(isEmpty({ jobs: 0, waiting: [{}] } as unknown as Week)).toBe(false);
    expect(isEmpty({ jobs: 1, waiting: [] } as unknown as Week)).toBe(false);
  });
});

describe('the prices of a shop', () => {
  const none = { part: '', cut: '', money: '' };
  beforeEach(() => keepPrices(none));
  afterEach(() => keepPrices(none));

  it('are asked about only with the price of a part, and a cut without one is free', () => {
    expect(asked(none)).toEqual({});
    expect(asked({ ...none, cut: '18' })).toEqual({});
    expect(asked({ ...none, part: '62,50' })).toEqual({ part_price: 62.5 });
    expect(asked({ ...none, part: '62.50', cut: '18' })).toEqual({ part_price: 62.5, cut_cost: 18 });
    expect(asked({ ...none, part: '62.50', cut: 'much' })).toEqual({ part_price: 62.5 });
  });

  it('are refused where they are no amount', () => {
    expect(['-1', '100001', '1,000.50', 'ten'].map(priceOf)).toEqual([null, null, null, null]);
    expect(['ten', '', '  ', '0'].map(isWrong)).toEqual([true, false, false, false]);
  });

  it('are kept on the tablet', () => {
    keepPrices({ part: '80' });
    keepPrices({ money: 'crowns' });
    expect(prices.value).toEqual({ part: '80', cut: '', money: 'crowns' });
    expect(JSON.parse(localStorage.getItem('brakewright/prices') ?? '')).toEqual(prices.value);
  });

  it('make a sum with its money, whole where it is whole', () => {
    expect(sumText(178, ' crowns ')).toBe('178 crowns');
    expect(sumText(133.5, '')).toBe('133.50');
    expect(sumText(-24, 'crowns')).toBe('−24 crowns');
  });
});
