import type { Week } from '../api/schema';
import { hoursAndMinutes } from '../show/time';
import { shop } from '../state/shop';
import { words } from '../words';
import { Bars } from './bars';
import { sideBySide, sum } from './figures';
import { WeekPart } from './part';

export interface Weeks {
  week: Week;
  last: Week;
}

export function durationText(minutes: number): string {
  const { hours, minutes: rest } = hoursAndMinutes(minutes);
  return words.week.duration(hours, rest);
}

const minutesOf = (one: { minutes: number }) => one.minutes;

export function TimePart({ week, last }: Weeks) {
  const { time: said, last_week } = words.week;
  const rows = sideBySide(week.time, last.time, { key: (one) => one.work, value: minutesOf });
  const [first] = rows;
  if (!first) return null;
  const jobs = week.time.find((one) => one.work === first.key)?.jobs ?? 0;
  const bars = rows.map(({ key, now, before }) => ({
    name: said.work[key],
    now,
    now_text: durationText(now),
    before,
    before_text: durationText(before),
  }));
  return (
    <WeekPart
      title={said.title}
      figure={durationText(first.now)}
      says={said.largest(said.work[first.key], jobs, durationText(sum(week.time.map(minutesOf))))}
      before={last_week(durationText(first.before))}
      basis={said.basis}
      sources={rows.map(({ key }) => ({
        name: said.work[key],
        numbers: week.time.find((one) => one.work === key)?.job_numbers ?? [],
      }))}
    >
      <Bars name={said.title} kind="week-time" thing={said.step} rows={bars} />
    </WeekPart>
  );
}

const latheName = (id: string) => shop.value?.lathes.find((one) => one.id === id)?.name ?? words.week.lathe.gone;

export function LathePart({ week, last }: Weeks) {
  const { lathe: said, last_week } = words.week;
  const rows = sideBySide(week.waiting, last.waiting, { key: (one) => one.lathe_id, value: minutesOf });
  const [first] = rows;
  const of = week.waiting.find((one) => one.lathe_id === first?.key);
  if (!first || !of) return <WeekPart title={said.title} says={said.none} />;
  return (
    <WeekPart
      title={said.title}
      figure={durationText(first.now)}
      says={said.largest(latheName(first.key), of.jobs, durationText(of.longest_minutes))}
      before={last_week(durationText(first.before))}
      basis={said.basis}
      sources={rows.map(({ key }) => ({
        name: latheName(key),
        numbers: week.waiting.find((one) => one.lathe_id === key)?.job_numbers ?? [],
      }))}
    >
      <Bars
        name={said.title}
        kind="week-lathe"
        thing={said.lathe}
        rows={rows.map(({ key, now, before }) => ({
          name: latheName(key),
          now,
          now_text: durationText(now),
          before,
          before_text: durationText(before),
        }))}
      />
    </WeekPart>
  );
}
