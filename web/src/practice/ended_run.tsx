import { useState } from 'preact/hooks';
import { type Trouble, useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { go } from '../route/router';
import { Screen } from '../shell/screen';
import { typeset } from '../show/typeset';
import { person } from '../state/shop';
import { words } from '../words';
import { beginRun } from './api';
import { MarkSheet } from './mark_sheet';
import { markStanding } from './mark_standing';
import type { PracticeRun } from './model';

interface Props {
  run: PracticeRun;
  /** Of the last reading of the run. */
  trouble: Trouble | null;
  again: () => void;
}

/** What ended the run, and then its mark. */
export function EndedRun({ run, trouble, again }: Props) {
  const { practice_mark } = words;
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
    return <Surprise text={ended.text} onSeen={() => setSeen(true)} />;
  }
  const standing = markStanding(run, trouble !== null);
  const ways = {
    marked: (
      <button type="button" class="main" disabled={saving.busy} onClick={next}>
        {practice_mark.next}
      </button>
    ),
    unread: (
      <button type="button" class="main" onClick={again}>
        {words.shell.tryAgain}
      </button>
    ),
    counting: null,
    given_up: null,
  };
  const way = mine || standing === 'unread' ? ways[standing] : null;
  return (
    <Screen name="bench" title={titleOf(run, mine)} next={way ?? <ToAll main />} aside={way ? <ToAll /> : undefined}>
      <TroubleLine text={(saving.trouble ?? (standing === 'unread' ? trouble : null))?.message} />
      <p class={ended.unsafe ? 'bench-ended' : 'soft'}>{typeset(ended.text)}</p>
      {standing === 'counting' ? <p role="status">{practice_mark.loading}</p> : null}
      {run.mark ? <MarkSheet mark={run.mark} /> : null}
    </Screen>
  );
}

/** What was unsafe is read before anything else. */
function Surprise({ text, onSeen }: { text: string; onSeen: () => void }) {
  const { ended: said } = words.practice_bench;
  return (
    <Screen
      name="bench"
      title={said.unsafe}
      next={
        <button type="button" class="main" onClick={onSeen}>
          {said.to_mark}
        </button>
      }
      aside={<ToAll />}
    >
      <section class="bench-ended" role="alert" aria-label={said.could}>
        <h2>{said.could}</h2>
        <p>{typeset(text)}</p>
      </section>
    </Screen>
  );
}

function titleOf(run: PracticeRun, mine: boolean): string {
  const { practice_mark: said } = words;
  if (run.view.ended?.code === 'given_up') return said.given_up;
  return mine ? said.title : said.title_of(run.person_name);
}

const ToAll = ({ main = false }: { main?: boolean }) => (
  <a class={main ? 'button main' : 'button'} href="/practice">
    {words.practice.to_all}
  </a>
);
