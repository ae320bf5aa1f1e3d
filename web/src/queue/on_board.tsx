import { call } from '../api/client';
import { useStanding } from '../state/answer';
import { QUEUE } from '../state/kinds';
import { personName, shop } from '../state/shop';
import { words } from '../words';
import './queue.css';
import { about } from './queue';

/** The lathes on the board: who is at each, who is next, and the way to its queue. */
export function QueuesOnBoard() {
  const lathes = (shop.value?.lathes ?? []).filter((one) => one.active !== false);
  if (lathes.length === 0) return null;
  return (
    <section class="queues" aria-label={words.queue.on_board}>
      <h2>{words.queue.on_board}</h2>
      <ul>
        {lathes.map((one) => (
          <li key={one.id}>
            <OneLathe lathe_id={one.id} name={one.name} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function OneLathe({ lathe_id, name }: { lathe_id: string; name: string }) {
  const { queue: said } = words;
  const { answer } = useStanding(() => call('get', '/lathes/{lathe_id}/queue', { path: { lathe_id } }), QUEUE, {
    of: [lathe_id],
  });
  const [first, second] = answer?.lines ?? [];
  return (
    <a class="queue-line" href={`/lathes/${lathe_id}/queue`}>
      <span class="queue-lathe">{name}</span>{' '}
      <span class="soft">{answer ? said.wait_count(answer.lines.length) : ''}</span>{' '}
      {first ? (
        <span>
          <span class="small soft">{said.at_lathe}</span> {said.job(first.job_number)},{' '}
          {personName(first.entry.person_id)}
        </span>
      ) : null}{' '}
      {second ? (
        <span>
          <span class="small soft">{said.next}</span> {said.job(second.job_number)},{' '}
          {personName(second.entry.person_id)}, {said.in_about(about(second.starts_in_minutes))}
        </span>
      ) : null}
    </a>
  );
}
