import { call } from '../api/client';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { useStanding } from '../state/answer';
import { PERMITS } from '../state/kinds';
import { leads } from '../state/role';
import { person } from '../state/shop';
import { words } from '../words';
import { SignedCuts } from './cuts';
import { type NextThing, nextThing } from './standing';
import { StateView } from './state_view';

const WAY: Record<NextThing, string> = {
  safety_points: '/permit/safety',
  measuring: '/studies',
  practice: '/practice',
  supervised_cuts: '/',
  ask_teacher: '/',
  nothing: '/',
};

/** Whether I may cut, and the next thing to do for it. */
export function MyPermit() {
  const { permit } = words;
  const id = person.value?.id ?? '';
  const { answer, trouble } = useStanding(
    () => call('get', '/people/{person_id}/permit', { path: { person_id: id } }),
    PERMITS,
    { of: [id] },
  );
  const mine = answer?.person_id === id ? answer : null;
  const next = mine ? nextThing(mine) : 'nothing';
  return (
    <Screen
      name="permit"
      title={permit.title}
      next={
        <a
          class={next === 'safety_points' || next === 'measuring' ? 'button main' : 'button main later'}
          href={WAY[next]}
        >
          {permit.next[next]}
        </a>
      }
      aside={
        leads.value ? (
          <a class="button" href="/class">
            {words.classes.title}
          </a>
        ) : (
          <a class="button" href="/permit/safety">
            {permit.safety.title}
          </a>
        )
      }
    >
      <TroubleLine text={trouble?.message} />
      {mine ? (
        <>
          <StateView state={mine} />
          {permit.next_note[next] ? <p class="permit-next">{permit.next_note[next]}</p> : null}
          {mine.leads ? null : <SignedCuts person_id={id} />}
        </>
      ) : trouble ? null : (
        <p class="soft">{permit.waiting}</p>
      )}
    </Screen>
  );
}
