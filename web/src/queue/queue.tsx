import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { JobLine, LatheQueue, QueueLine } from '../api/schema';
import { SecondWord } from '../class/second_word';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { stepAddress, stepFor } from '../shell/step_path';
import { useStanding } from '../state/answer';
import { doors } from '../state/doors';
import { QUEUE } from '../state/kinds';
import { leads } from '../state/role';
import { person, personName, shop } from '../state/shop';
import { words } from '../words';
import '../shop/shop.css';
import './queue.css';
import { coarse, hoursOf, mayTakeOut, quickOrSlow, restsOn, wholeWait } from './minutes';

const MOST_OPEN = 200;

export function about(minutes: number): string {
  const { hours, minutes: rest } = hoursOf(minutes);
  return words.queue.about(hours, rest);
}

/** Who is next at a lathe, large enough for a screen on the wall. */
export function QueueScreen({ id = '' }: Record<string, string>) {
  return <Queue key={id} lathe_id={id} />;
}

function Queue({ lathe_id }: { lathe_id: string }) {
  const { queue: said } = words;
  const lathe = shop.value?.lathes.find((one) => one.id === lathe_id);
  const [joining, setJoining] = useState(false);
  const { answer, trouble, again } = useStanding(
    () => call('get', '/lathes/{lathe_id}/queue', { path: { lathe_id } }),
    QUEUE,
  );
  if (!lathe) {
    return (
      <Screen name="queue" title={said.unknown} next={<ToBoard />}>
        {null}
      </Screen>
    );
  }
  return (
    <Screen
      name="queue"
      title={said.title(lathe.name)}
      next={
        <button type="button" class="main" aria-expanded={joining} onClick={() => setJoining(!joining)}>
          {joining ? words.shop.cancel : said.join}
        </button>
      }
      aside={<ToBoard plain />}
    >
      <TroubleLine text={trouble?.message} />
      {answer ? null : <p class="soft">{trouble ? '' : said.waiting}</p>}
      {answer && joining ? (
        <Joining
          queue={answer}
          onJoined={() => {
            setJoining(false);
            again();
          }}
        />
      ) : null}
      {answer && answer.lines.length === 0 ? <p class="queue-free">{said.free}</p> : null}
      {answer ? (
        <ol class="queue">
          {answer.lines.map((line, place) => (
            <li key={line.entry.id}>
              <OneWaiting {...{ line, place, lathe_id }} onLeft={again} />
            </li>
          ))}
        </ol>
      ) : null}
      {answer && answer.lines.length > 0 ? <Basis queue={answer} /> : null}
      {doors.value?.you ? <p class="small soft">{said.wall(doors.value.you.idle_minutes)}</p> : null}
    </Screen>
  );
}

const ToBoard = ({ plain = false }: { plain?: boolean }) => (
  <a class={plain ? 'button' : 'button main'} href="/">
    {words.shell.board}
  </a>
);

const placeWord = (place: number) =>
  place === 0 ? words.queue.at_lathe : place === 1 ? words.queue.next : words.queue.later(place + 1);

interface OneProps {
  line: QueueLine;
  place: number;
  lathe_id: string;
  onLeft: () => void;
}

function OneWaiting({ line, place, lathe_id, onLeft }: OneProps) {
  const { queue: said } = words;
  const saving = useSaving();
  const [sure, setSure] = useState(false);
  const range = quickOrSlow(line);
  const leave = () =>
    saving.run(async () => {
      const path = { lathe_id, entry_id: line.entry.id };
      await call('post', '/lathes/{lathe_id}/queue/{entry_id}/leave', { path, body: { why: said.why } });
      onLeft();
    });
  return (
    <article class="waiting" aria-label={said.job(line.job_number)}>
      <p class="waiting-place">{placeWord(place)}</p>
      <a class="waiting-number figures" href={stepAddress(line.job_number, stepFor(line.waits_for))}>
        <span class="heard">{said.job(line.job_number)}</span>
        <span aria-hidden="true">{line.job_number}</span>
      </a>
      <p class="waiting-who">
        <span>{personName(line.entry.person_id)}</span> <span class="soft">{line.vehicle}</span>
      </p>
      <p class="waiting-when figures">
        <span>{place === 0 ? said.now : said.in_about(about(line.starts_in_minutes))}</span>{' '}
        <span class="small soft">
          {range ? said.takes_between(range.low, range.high) : said.takes(about(line.minutes))}
        </span>
      </p>
      {place > 0 ? (
        <p class="waiting-meanwhile">
          <span class="small soft">{said.meanwhile}</span> {line.meanwhile}{' '}
          <a class="button plain" href="/practice">
            {words.practice.board}
          </a>
        </p>
      ) : null}
      {!mayTakeOut(line, person.value?.id, leads.value) ? null : sure ? (
        <SecondWord
          title={said.leave_sure(line.job_number)}
          yes={said.leave_named(line.job_number)}
          no={words.classes.keep}
          saving={saving}
          trouble={saving.trouble?.message}
          onYes={leave}
          onNo={() => setSure(false)}
        >
          <p>{said.leave_means}</p>
        </SecondWord>
      ) : (
        <button
          type="button"
          class="plain waiting-leave"
          aria-label={said.leave_named(line.job_number)}
          onClick={() => setSure(true)}
        >
          {said.leave}
        </button>
      )}
    </article>
  );
}

function Basis({ queue }: { queue: LatheQueue }) {
  const { queue: said } = words;
  const minutes = (of: number) => words.queue.about(0, coarse(of));
  const [handling, cut] = [minutes(queue.handling_min), minutes(queue.cut_min)];
  return (
    <p class="small soft">
      {said.rests[restsOn(queue)]}{' '}
      {queue.rests_on_parts > 0 ? said.own(queue.rests_on_parts, handling, cut) : said.usual(handling, cut)}
      {queue.lines.some(quickOrSlow) ? ` ${said.between}` : ''}
    </p>
  );
}

/** What may still need the lathe; the shop has the last word on it. */
const AFTER_LATHE: readonly JobLine['waits_for'][] = ['finish', 'readings_after', 'refit', 'seal', 'nothing'];

function Joining({ queue, onJoined }: { queue: LatheQueue; onJoined: () => void }) {
  const { queue: said } = words;
  const { answer } = useStanding(() => call('get', '/jobs', { query: { state: 'open', limit: MOST_OPEN } }), QUEUE);
  const [ids] = useState(() => new Map<string, string>());
  const saving = useSaving();
  const waiting = new Set(queue.lines.map((line) => line.entry.job_id));
  const jobs = (answer?.lines ?? []).filter(
    ({ job, waits_for }) => !waiting.has(job.id) && !AFTER_LATHE.includes(waits_for),
  );
  const join = (line: JobLine) =>
    saving.run(async () => {
      const id = ids.get(line.job.id) ?? newId();
      ids.set(line.job.id, id);
      const body = { id, job_id: line.job.id, person_id: person.value?.id ?? '' };
      await call('post', '/lathes/{lathe_id}/queue', { path: { lathe_id: queue.lathe_id }, body });
      onJoined();
    });
  const wait = wholeWait(queue);
  return (
    <section class="joining" aria-label={said.join_title}>
      <h2>{said.join_title}</h2>
      <p class="soft">{queue.lines.length > 0 ? said.join_to(about(wait)) : said.free}</p>
      {answer && jobs.length === 0 ? <p>{said.join_none}</p> : null}
      <TroubleLine text={saving.trouble?.message} />
      <ul class="things">
        {jobs.map((line) => (
          <li key={line.job.id}>
            <button type="button" class="plain thing" disabled={saving.busy} onClick={() => join(line)}>
              <span class="thing-name">
                {said.job(line.job.number ?? 0)}, {line.job.vehicle}
              </span>{' '}
              <span class="small soft">{words.board.waits[line.waits_for]}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
