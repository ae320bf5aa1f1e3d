import { leads } from '../state/role';
import { words } from '../words';

/** On the first screen of whoever leads: the way to the week. */
export const WeekOnBoard = () =>
  leads.value ? (
    <section class="queues" aria-label={words.week.name}>
      <h2>{words.week.name}</h2>
      <ul>
        <li>
          <a class="queue-line" href="/week">
            {words.week.on_board}
          </a>
        </li>
      </ul>
    </section>
  ) : null;
