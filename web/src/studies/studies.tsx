import { call } from '../api/client';
import type { StudyView } from '../api/schema';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { calendarDay } from '../show/time';
import { useStanding } from '../state/answer';
import { STUDIES } from '../state/kinds';
import { leads } from '../state/role';
import { person } from '../state/shop';
import { words } from '../words';
import { inOrder } from './study_plan';
import './studies.css';

/** A class that measures at once makes many changes: so long they are let settle. */
export const SETTLE_MS = 500;

/** Every study, read again when one of them changes. Null until they are there. */
export function useStudies() {
  const of = [person.value?.id];
  const { answer, trouble } = useStanding(() => call('get', '/studies'), STUDIES, { of, settle_ms: SETTLE_MS });
  return { views: answer, trouble };
}

export function Studies() {
  const said = words.studies;
  const { views, trouble } = useStudies();
  const mine = views?.find((one) => !one.study.closed && isOpenFor(one, person.value?.id ?? ''));
  return (
    <Screen
      name="studies"
      title={said.title}
      next={
        leads.value ? (
          <a class="button main" href="/studies/new">
            {said.make}
          </a>
        ) : mine ? (
          <a class="button main" href={`/studies/${mine.study.id}/measure`}>
            {mine.progress.find((one) => one.person_id === person.value?.id)?.done ? said.go_on : said.to_measure}
          </a>
        ) : (
          <a class="button main later" href="/">
            {words.shell.board}
          </a>
        )
      }
      aside={
        leads.value ? (
          <a class="button" href="/shop/reference-parts">
            {words.shop.rooms['reference-parts'][0]}
          </a>
        ) : null
      }
    >
      <p class="soft studies-lead">{said.lead}</p>
      <TroubleLine text={trouble?.message} />
      {views === null && !trouble ? <p class="soft">{said.waiting}</p> : null}
      {views?.length === 0 ? <p class="soft">{leads.value ? said.none : said.none_for_you}</p> : null}
      <List title={said.open_title} views={inOrder(views ?? []).filter((one) => !one.study.closed)} />
      <List title={said.closed_title} views={inOrder(views ?? []).filter((one) => one.study.closed)} />
    </Screen>
  );
}

/** Whether somebody has still to read in it. */
export const isOpenFor = (view: StudyView, person_id: string) =>
  view.progress.some((one) => one.person_id === person_id && one.done < one.of);

function List({ title, views }: { title: string; views: readonly StudyView[] }) {
  if (views.length === 0) return null;
  return (
    <section>
      <h2>{title}</h2>
      <ul class="studies-list">
        {views.map((one) => (
          <li key={one.study.id}>
            <Line view={one} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Line({ view }: { view: StudyView }) {
  const said = words.studies;
  const { study, progress } = view;
  const own = progress.find((one) => one.person_id === person.value?.id);
  const through = progress.filter((one) => one.done === one.of).length;
  const facts = [
    said.counts(study.reference_part_ids.length, study.person_ids.length, study.repeats),
    study.closed_at ? said.closed_on(calendarDay(study.closed_at)) : said.through(through, progress.length),
    own && !study.closed ? said.yours(own.done, own.of) : '',
  ].filter(Boolean);
  const measures = !study.closed && own && own.done < own.of && !leads.value;
  return (
    <a class="study-line" href={measures ? `/studies/${study.id}/measure` : `/studies/${study.id}`}>
      <span class="study-name">{study.name}</span>
      <span class="small soft">{facts.join(' · ')}</span>
    </a>
  );
}
