import { useEffect, useState } from 'preact/hooks';
import { call } from '../api/client';
import type { JobLine, JobPage } from '../api/schema';
import { ToJob } from '../beside/beside';
import { othersOf } from '../beside/vehicle';
import { useSaving } from '../controls/saving';
import { OpenDoors } from '../door/open_doors';
import { Screen } from '../shell/screen';
import { heard, lastChange } from '../state/connection';
import { loadShop, shop } from '../state/shop';
import { PracticeOnBoard } from '../studies/on_board';
import { WeekOnBoard } from '../week/on_board';
import { words } from '../words';
import './board.css';
import { TroubleLine } from '../controls/trouble_line';
import { QueuesOnBoard } from '../queue/on_board';
import { EmptyShop, firstToDo } from './empty_shop';
import { Finished } from './finished';
import { Line } from './line';

const MOST_OPEN = 200;
const SETTLE_MS = 150;

/** What is open, what each waits for, who has it; under it the finished ones. */
export function Board() {
  const [page, setPage] = useState<JobPage | null>(null);
  const { trouble, run } = useSaving();
  const seq = lastChange.value?.seq ?? 0;
  useEffect(() => {
    const read = () =>
      run(async () => {
        const [open] = await Promise.all([
          call('get', '/jobs', { query: { state: 'open', limit: MOST_OPEN } }),
          loadShop(),
        ]);
        setPage(open);
      });
    const timer = setTimeout(read, page ? SETTLE_MS : 0);
    return () => clearTimeout(timer);
  }, [seq, heard.value]);
  const view = shop.value;
  const bare = view && page ? page.total === 0 && view.sealed_jobs === 0 : false;
  const first = bare && view ? firstToDo(view) : undefined;
  return (
    <Screen
      name="board"
      title={bare ? words.board.start.title : words.board.title}
      next={
        <a class="button main" href={first?.to ?? '/jobs/new'}>
          {first?.name ?? words.board.open_job}
        </a>
      }
      aside={
        bare ? undefined : (
          <a class="button" href="/class">
            {words.classes.title}
          </a>
        )
      }
    >
      {view?.settings.demo ? <p class="doubt">{words.board.demo}</p> : null}
      <OpenDoors />
      <TroubleLine text={trouble?.message} />
      {page === null ? <p class="soft">{trouble ? '' : words.board.waiting}</p> : null}
      {bare ? <EmptyShop /> : null}
      {page && !bare ? <OpenJobs lines={page.lines} /> : null}
      {page && !bare ? <PracticeOnBoard /> : null}
      {page && !bare ? <QueuesOnBoard /> : null}
      {page && !bare ? <WeekOnBoard /> : null}
      {view && view.sealed_jobs > 0 ? <Finished seq={seq} /> : null}
    </Screen>
  );
}

function OpenJobs({ lines }: { lines: readonly JobLine[] }) {
  if (lines.length === 0) return <p class="board-none soft">{words.board.none_open}</p>;
  return (
    <ul class="jobs" aria-label={words.board.open_count(lines.length)}>
      {lines.map((line) => (
        <li key={line.job.id}>
          <Line line={line} />
          <Beside others={othersOf(lines, line.job)} />
        </li>
      ))}
    </ul>
  );
}

/** The other open jobs of the same vehicle. */
function Beside({ others }: { others: readonly JobLine[] }) {
  if (others.length === 0) return null;
  return (
    <p class="board-beside small">
      <span class="soft">{words.beside.board}</span>
      {others.map((line) => (
        <ToJob key={line.job.id} line={line} />
      ))}
    </p>
  );
}
