import type { PermitNeed, PermitState } from '../api/schema';
import { calendarDay, dayOf, onDay } from '../show/time';
import { personName } from '../state/shop';
import { words } from '../words';
import { daysLeft, isMet, lapsesSoon, metOf, shareOf, standingOf } from './standing';
import './permit.css';

/** Whether a permit stands, until when, who gave it; and what it needs, as one list. */
export function StateView({ state }: { state: PermitState }) {
  const { permit } = words;
  return (
    <>
      <Standing state={state} />
      {state.leads ? null : (
        <section class="needs" aria-label={permit.needs_title}>
          <h2>{permit.needs_title}</h2>
          {state.needs.length === 0 ? <p class="soft">{permit.needs_nothing}</p> : null}
          <ul class="needs-list">
            {state.needs.map((need) => (
              <Need key={need.what} need={need} />
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

function Standing({ state }: { state: PermitState }) {
  const { permit } = words;
  const standing = standingOf(state);
  const today = dayOf(new Date());
  const given = state.permit;
  return (
    <section class={`standing standing-${standing}`} aria-label={permit.title}>
      <Shape standing={standing} />
      <div>
        <p class="standing-word">{permit.standing[standing]}</p>
        {standing === 'stands' && state.lapses_on ? (
          <p class="standing-until figures">
            {permit.until_more(onDay(state.lapses_on), daysLeft(state.lapses_on, today))}
          </p>
        ) : null}
        {standing === 'lapsed' && state.lapses_on ? (
          <p class="figures">{permit.until(onDay(state.lapses_on))}</p>
        ) : null}
        {given ? (
          <p class="small soft">
            {permit.given(personName(given.given_by_person_id), calendarDay(given.at))}{' '}
            {given.reason ? permit.because(given.reason) : ''}
          </p>
        ) : null}
        {given?.withdrawn_at ? (
          <p class="small">
            {permit.withdrawn(personName(given.withdrawn_by_person_id), calendarDay(given.withdrawn_at))}{' '}
            {permit.because(given.withdrawn_why)}
          </p>
        ) : null}
        {lapsesSoon(state, today) ? <p class="doubt">{permit.soon}</p> : null}
        {state.leads ? null : <p class="small soft">{permit.means}</p>}
      </div>
    </section>
  );
}

/** A closed ring for a permit that stands, an open one where there is none, a cut one where it ended. */
function Shape({ standing }: { standing: ReturnType<typeof standingOf> }) {
  const holds = standing === 'stands' || standing === 'leads';
  const ended = standing === 'withdrawn' || standing === 'lapsed';
  return (
    <svg class="standing-shape" viewBox="0 0 48 48" aria-hidden="true" fill="none" stroke="currentColor">
      <circle cx="24" cy="24" r="18" stroke-width="4" stroke-dasharray={holds || ended ? undefined : '7 6'} />
      {holds ? <path d="M15 25 22 32 34 17" stroke-width="4" /> : null}
      {ended ? <path d="M11 37 37 11" stroke-width="4" /> : null}
    </svg>
  );
}

function Need({ need }: { need: PermitNeed }) {
  const { permit } = words;
  return (
    <li class="need">
      <span class="need-name">{permit.what[need.what]}</span>{' '}
      <span class="need-count figures">{permit.done_of(Math.min(need.done, need.of), need.of)}</span>{' '}
      <span class="need-bar" aria-hidden="true">
        <span style={{ width: `${100 * shareOf(need)}%` }} />
      </span>{' '}
      <span class="need-text small soft">
        {isMet(need) ? `${permit.met}: ` : ''}
        {need.text}
      </span>
    </li>
  );
}

/** One word on how somebody stands, for a line in a list. */
export function shortStanding(state: PermitState | undefined): string {
  if (!state) return '';
  const standing = standingOf(state);
  const word = words.permit.short[standing];
  const { met, of } = metOf(state);
  if (standing === 'missing' && of > 0) return `${word}, ${words.permit.met_of(met, of)}`;
  return standing === 'stands' && state.lapses_on ? `${word} ${words.permit.until(onDay(state.lapses_on))}` : word;
}
