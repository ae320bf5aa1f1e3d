import { person } from '../state/shop';
import { words } from '../words';
import { isOpenFor, useStudies } from './studies';

/** On the first screen: what one has still to read in a study, and the way to all of them. */
export function PracticeOnBoard() {
  const { views } = useStudies();
  if (!views) return null;
  const me = person.value?.id ?? '';
  const mine = views.filter((one) => !one.study.closed && isOpenFor(one, me));
  return (
    <p class="row practice-on-board">
      {mine.map(({ study, progress }) => {
        const own = progress.find((one) => one.person_id === me);
        return (
          <a key={study.id} class="button" href={`/studies/${study.id}/measure`}>
            {words.studies.board(study.name, own?.done ?? 0, own?.of ?? 0)}
          </a>
        );
      })}
      <a class="button plain" href="/practice">
        {words.practice.title}
      </a>
      <a class="button plain" href="/studies">
        {words.studies.title}
      </a>
      <a class="button plain" href="/chatter">
        {words.chatter.title}
      </a>
    </p>
  );
}
