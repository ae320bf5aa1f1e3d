import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { Field } from '../controls/field';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { SignedCuts } from '../permit/cuts';
import { Giving } from '../permit/giving';
import { StateView } from '../permit/state_view';
import { Screen } from '../shell/screen';
import { loadShop, person, shop } from '../state/shop';
import { words } from '../words';
import '../shop/shop.css';
import './class.css';
import { useStanding } from '../state/answer';
import { CLASSES, PERMITS } from '../state/kinds';
import { leads } from '../state/role';
import { presentIds } from './members';
import { OnlyLeads } from './only_leads';
import { SecondWord } from './second_word';

/** One person's page for whoever leads: the permit, what was shown, and the name's erasure. */
export function StudentPage({ person: person_id = '' }: Record<string, string>) {
  const own = person_id === person.value?.id;
  return leads.value || own ? <Student key={person_id} person_id={person_id} /> : <OnlyLeads />;
}

function Student({ person_id }: { person_id: string }) {
  const { student, title } = words.classes;
  const who = shop.value?.people.find((one) => one.id === person_id);
  const {
    answer: state,
    trouble,
    again,
  } = useStanding(() => call('get', '/people/{person_id}/permit', { path: { person_id } }), PERMITS);
  const { answer: classes } = useStanding(() => call('get', '/classes'), CLASSES);
  const names = (classes ?? [])
    .filter((view) => presentIds(view.memberships).has(person_id))
    .map((view) => view.class.name)
    .join(', ');
  return (
    <Screen
      name="student"
      title={who?.name ?? student.gone}
      next={
        <a class="button main" href={who ? `/class/${person_id}/evidence` : '/class'}>
          {who ? student.evidence : title}
        </a>
      }
      aside={
        <a class="button" href="/class">
          {title}
        </a>
      }
    >
      {who ? (
        <div class="class-body">
          <p class="soft">
            {words.trade.role[who.role]}. {classes ? (names ? student.in_classes(names) : student.in_none) : ''}
          </p>
          <TroubleLine text={trouble?.message} />
          {state ? (
            <>
              <StateView state={state} />
              {leads.value ? <Giving state={state} onChanged={again} /> : null}
              {state.leads ? null : <SignedCuts person_id={person_id} />}
            </>
          ) : null}
          {leads.value && (who.role === 'student' || who.role === 'visitor') ? (
            <Erase person_id={person_id} name={who.name} />
          ) : null}
        </div>
      ) : null}
    </Screen>
  );
}

function Erase({ person_id, name }: { person_id: string; name: string }) {
  const { student } = words.classes;
  const [open, setOpen] = useState(false);
  const [typed, setTyped] = useState('');
  const [erased, setErased] = useState('');
  const saving = useSaving();
  const erase = () =>
    saving.run(async () => {
      const left = await call('post', '/people/{person_id}/erasure', { path: { person_id } });
      await loadShop();
      setErased(left.name);
      setOpen(false);
    });
  if (erased) return <p role="status">{student.erased(erased)}</p>;
  if (!open) {
    return (
      <div class="class-actions">
        <button type="button" onClick={() => setOpen(true)}>
          {student.erase}
        </button>
      </div>
    );
  }
  const same = typed.trim() === name;
  return (
    <SecondWord
      title={student.erase_title(name)}
      yes={student.erase_yes}
      no={student.erase_no}
      saving={saving}
      closed={!same}
      trouble={saving.trouble?.message}
      onYes={erase}
      onNo={() => setOpen(false)}
    >
      <h3>{student.erase_goes_title}</h3>
      <ul>
        {student.erase_goes.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
      <h3>{student.erase_stays_title}</h3>
      <ul>
        {student.erase_stays.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
      <Field
        label={student.erase_confirm}
        value={typed}
        error={typed.trim().length >= name.length && !same ? student.erase_differs : undefined}
        onInput={setTyped}
      />
    </SecondWord>
  );
}
