import { useState } from 'preact/hooks';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { go } from '../route/router';
import { Screen } from '../shell/screen';
import { typeset } from '../show/typeset';
import { person } from '../state/shop';
import { words } from '../words';
import { beginRun } from './api';
import { MarkSheet } from './mark_sheet';
import type { PracticeRun } from './model';

/** What ended the run, and then its mark. */
export function EndedRun({ run, again }: { run: PracticeRun; again: () => void }) {
  const { practice_bench: said, practice_mark } = words;
  const { ended } = run.view;
  const surprise = ended?.unsafe ?? false;
  const [seen, setSeen] = useState(!surprise);
  const saving = useSaving();
  const mine = run.person_id === person.value?.id;
  const next = () =>
    saving.run(async () => {
      const wanted = run.mark?.next;
      const begun = await beginRun(
        wanted ? { difficulty: wanted.difficulty, seed: wanted.seed } : { difficulty: run.difficulty },
      );
      go(`/practice/${begun.id}`);
    });
  if (!ended) return null;
  if (!seen) {
    return (
      <Screen
        name="bench"
        title={said.ended.unsafe}
        next={
          <button type="button" class="main" onClick={() => setSeen(true)}>
            {said.ended.to_mark}
          </button>
        }
        aside={<ToAll />}
      >
        <section class="bench-ended" role="alert" aria-label={said.ended.could}>
          <h2>{said.ended.could}</h2>
          <p>{typeset(ended.text)}</p>
        </section>
      </Screen>
    );
  }
  const action = run.mark ? (
    <button type="button" class="main" disabled={saving.busy} onClick={next}>
      {practice_mark.next}
    </button>
  ) : (
    <button type="button" class="main" onClick={again}>
      {words.shell.tryAgain}
    </button>
  );
  return (
    <Screen
      name="bench"
      title={mine ? practice_mark.title : practice_mark.title_of(run.person_name)}
      next={mine ? action : <ToAll main />}
      aside={mine ? <ToAll /> : undefined}
    >
      <TroubleLine text={saving.trouble?.message} />
      <p class={ended.unsafe ? 'bench-ended' : 'soft'}>{typeset(ended.text)}</p>
      {run.mark ? <MarkSheet mark={run.mark} /> : null}
    </Screen>
  );
}

const ToAll = ({ main = false }: { main?: boolean }) => (
  <a class={main ? 'button main' : 'button'} href="/practice">
    {words.practice.to_all}
  </a>
);
