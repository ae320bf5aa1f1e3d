import { useState } from 'preact/hooks';
import type { PersonAtDoor } from '../api/schema';
import { CHECK_ADDRESS } from '../record/record_check';
import { Screen } from '../shell/screen';
import { isMine, outbox } from '../state/connection';
import { comeIn, doors, whyOut } from '../state/doors';
import { words } from '../words';
import { useAttempt } from './attempt';
import './door.css';
import { SecretField } from './secret_field';

/** The door of a shop whose doors are closed: a name, then the PIN or password that goes with it. */
export function Door() {
  const [chosen, setChosen] = useState<string | null>(null);
  const person = doors.value?.people.find((one) => one.id === chosen);
  if (person) return <ComeIn key={person.id} person={person} onBack={() => setChosen(null)} />;
  const people = doors.value?.people ?? [];
  return (
    <Screen name="door" title={words.door.title}>
      <div class="door">
        <WhyHere />
        <p class="soft">{people.length > 0 ? words.door.lead : words.door.nobody}</p>
        <ul class="tiles">
          {people.map((one) => (
            <li key={one.id}>
              <button type="button" onClick={() => setChosen(one.id)}>
                <span>{one.name}</span>
                <span class="small soft">{words.trade.role[one.role]}</span>
              </button>
            </li>
          ))}
        </ul>
        {doors.value?.hint ? <p class="doubt">{doors.value.hint}</p> : null}
        <p>
          <a class="button plain" href={CHECK_ADDRESS}>
            {words.record.check.open}
          </a>
        </p>
      </div>
    </Screen>
  );
}

/** Why the door is here, and what waits behind it. */
function WhyHere() {
  const why = whyOut.value === 'idle' ? words.door.idle_out : whyOut.value ? words.door.ended_out : '';
  const waiting = new Map<string, number>();
  for (const entry of outbox.waiting.value) {
    const id = String(entry.sent.query?.by_person_id ?? '');
    if (!isMine(entry)) waiting.set(id, (waiting.get(id) ?? 0) + 1);
  }
  const nameOf = (id: string) => doors.value?.people.find((one) => one.id === id)?.name;
  return (
    <>
      {why ? <p class="doubt">{why}</p> : null}
      {[...waiting].map(([id, n]) => {
        const name = nameOf(id);
        return name ? (
          <p key={id} class="doubt">
            {words.door.waiting(n, name)}
          </p>
        ) : null;
      })}
    </>
  );
}

const FORM = 'door-form';

function ComeIn({ person, onBack }: { person: PersonAtDoor; onBack: () => void }) {
  const kind = person.secret_kind;
  const isNew = kind === 'pin' && !person.has_secret;
  const shut = kind === 'password' && !person.has_secret;
  const [secret, setSecret] = useState('');
  const [first, setFirst] = useState<string | null>(null);
  const [differ, setDiffer] = useState(false);
  const attempt = useAttempt();
  const enter = async (event: Event) => {
    event.preventDefault();
    if (secret === '' || attempt.busy || attempt.wait_s > 0) return;
    setDiffer(false);
    if (isNew && first === null) {
      setFirst(secret);
      setSecret('');
      return;
    }
    if (isNew && first !== secret) {
      setDiffer(true);
      setFirst(null);
      setSecret('');
      return;
    }
    if (!(await attempt.run(() => comeIn(person.id, secret, isNew)))) {
      setSecret('');
      setFirst(null);
    }
  };
  const { door } = words;
  const choosing = isNew && first === null;
  const label = isNew ? (choosing ? door.choose_pin : door.repeat_pin) : door.secret[kind];
  return (
    <Screen
      name="door"
      title={person.name}
      next={
        shut ? null : (
          <button type="submit" form={FORM} class="main" disabled={secret === '' || attempt.busy || attempt.wait_s > 0}>
            {choosing ? door.repeat : door.come_in}
          </button>
        )
      }
      aside={
        <button type="button" onClick={onBack}>
          {door.another}
        </button>
      }
    >
      {shut ? (
        <p>{door.no_password}</p>
      ) : (
        <form id={FORM} class="door-secret" onSubmit={enter}>
          {kind === 'password' ? (
            <input
              class="heard"
              type="text"
              autoComplete="username"
              value={person.name}
              readOnly
              tabIndex={-1}
              aria-hidden="true"
            />
          ) : null}
          <SecretField
            kind={kind}
            label={label}
            value={secret}
            focused
            fresh={isNew}
            disabled={attempt.wait_s > 0}
            error={differ ? door.not_the_same : attempt.said}
            note={choosing ? door.choose_pin_why : undefined}
            onInput={setSecret}
          />
          {doors.value?.hint ? <p class="small soft">{doors.value.hint}</p> : null}
        </form>
      )}
    </Screen>
  );
}
