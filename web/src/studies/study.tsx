import { useState } from 'preact/hooks';
import { call, Refused } from '../api/client';
import type { StudyAnswer, StudyView } from '../api/schema';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { useAnswer, useStanding } from '../state/answer';
import { STUDIES } from '../state/kinds';
import { leads } from '../state/role';
import { person, personName } from '../state/shop';
import { words } from '../words';
import { Answer } from './answer';
import { isOpenFor, SETTLE_MS } from './studies';
import './studies.css';

const FORBIDDEN = 403;

/** One study: who is how far while it runs, and what it says. */
export function StudyRoom({ id = '' }: { id?: string }) {
  const said = words.studies;
  const [asking, setAsking] = useState(false);
  const me = person.value?.id ?? '';
  const of = [id, me];
  const read = () => call('get', '/studies/{study_id}', { path: { study_id: id } });
  const { answer: told, trouble: untold, reread } = useStanding(read, STUDIES, { of, settle_ms: SETTLE_MS });
  const view = told?.study.id === id ? told : null;
  const { answer, trouble: unreckoned } = useStudyAnswer(view, me);
  const saving = useSaving();
  const trouble = saving.trouble ?? untold ?? unreckoned;
  if (!view) {
    return (
      <Screen name="study" title={said.title} next={<ToStudies main />}>
        <TroubleLine text={trouble?.message} />
        {trouble ? null : <p class="soft">{said.waiting}</p>}
      </Screen>
    );
  }
  const { study } = view;
  const close = () =>
    saving.run(async () => {
      const body = { ...study, closed: true };
      await call('put', '/studies/{study_id}', { path: { study_id: id }, body });
      setAsking(false);
      await reread();
    });
  const partName = (part_id: string) => view.parts.find((one) => one.id === part_id)?.name ?? '';
  const mayMeasure = !study.closed && isOpenFor(view, me);
  return (
    <Screen
      name="study"
      title={study.name}
      aside={mayMeasure && leads.value ? <Measure id={id} main={false} /> : <ToStudies />}
      next={
        study.closed ? null : asking ? (
          <>
            <button type="button" onClick={() => setAsking(false)}>
              {said.one.keep_open}
            </button>
            <button type="button" class="main" disabled={saving.busy} onClick={close}>
              {said.one.close_now}
            </button>
          </>
        ) : leads.value ? (
          <button type="button" class="main" onClick={() => setAsking(true)}>
            {said.one.close}
          </button>
        ) : mayMeasure ? (
          <Measure id={id} main />
        ) : null
      }
    >
      <TroubleLine text={trouble?.message} />
      {asking ? (
        <p class="doubt" role="alert">
          {said.one.close_ask} {said.one.close_note}
        </p>
      ) : null}
      {study.closed ? null : <Progress view={view} />}
      {!study.closed && !leads.value ? <p>{said.one.open_for_you}</p> : null}
      {!study.closed && leads.value && answer ? (
        <section>
          <h2>{said.one.so_far}</h2>
          <p class="small soft">{said.one.so_far_note}</p>
        </section>
      ) : null}
      {answer && (study.closed || leads.value) ? <Answer answer={answer} study={study} partName={partName} /> : null}
      {study.closed && !answer && !trouble ? <p class="soft">{said.one.fetching}</p> : null}
    </Screen>
  );
}

/** Nobody who is still reading counts in it: it is the same until somebody else is through. */
function useStudyAnswer(view: StudyView | null, me: string) {
  const { id = '', closed = false } = view?.study ?? {};
  const isTold = view !== null && (closed || leads.value);
  const { answer, trouble } = useAnswer(
    async () => ({ id, told: isTold ? await answerOf(id) : null }),
    [id, closed, isTold, me, view ? throughIn(view) : 0],
  );
  return { answer: answer?.id === id ? answer.told : null, trouble };
}

const throughIn = (view: StudyView) => view.progress.filter((one) => one.done === one.of).length;

/** Null to whom the shop does not tell it yet. */
async function answerOf(study_id: string): Promise<StudyAnswer | null> {
  try {
    return await call('get', '/studies/{study_id}/answer', { path: { study_id } });
  } catch (cause) {
    if (cause instanceof Refused && cause.status === FORBIDDEN) return null;
    throw cause;
  }
}

const ToStudies = ({ main = false }: { main?: boolean }) => (
  <a class={main ? 'button main later' : 'button'} href="/studies">
    {words.studies.all}
  </a>
);

const Measure = ({ id, main }: { id: string; main: boolean }) => (
  <a class={main ? 'button main' : 'button'} href={`/studies/${id}/measure`}>
    {words.studies.to_measure}
  </a>
);

/** Who is how far, in figures and as a bar. */
function Progress({ view }: { view: StudyView }) {
  const said = words.studies.one;
  return (
    <section>
      <h2>{said.progress}</h2>
      <ul class="study-progress">
        {view.progress.map((one) => (
          <li key={one.person_id}>
            <span class="study-progress-name">{personName(one.person_id)}</span>
            <svg class="study-progress-bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
              <rect class="study-bar-all" width="100" height="8" />
              <rect class="study-bar-done" width={one.of > 0 ? (100 * one.done) / one.of : 0} height="8" />
            </svg>
            <span class="figures">{said.of(one.done, one.of)}</span>
            <span class="small soft">{one.done === one.of ? said.through : one.done === 0 ? said.not_begun : ''}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
