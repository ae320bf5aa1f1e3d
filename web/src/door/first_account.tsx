import { useState } from 'preact/hooks';
import { Field } from '../controls/field';
import { wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { closeDoors } from '../state/doors';
import { words } from '../words';
import { useAttempt } from './attempt';
import './door.css';
import { SecretField } from './secret_field';

const FORM = 'first-account';

/** An empty shop: its first teacher, with a password. */
export function FirstAccount({ onDone }: { onDone: () => void }) {
  const [name, setName] = useState('');
  const [password, setPassword] = useState('');
  const attempt = useAttempt();
  const { door } = words;
  const make = async (event: Event) => {
    event.preventDefault();
    if (await attempt.run(() => closeDoors({ name: name.trim() }, password))) onDone();
  };
  return (
    <Screen
      name="door"
      title={door.first_title}
      next={
        <button type="submit" form={FORM} class="main" disabled={attempt.busy || name.trim() === '' || password === ''}>
          {door.first_make}
        </button>
      }
    >
      <form id={FORM} class="door-form" onSubmit={make}>
        <p class="soft">{door.first_lead}</p>
        <Field
          label={words.shell.name}
          value={name}
          focused
          maxLength={80}
          error={wrongWith(attempt.trouble, 'name')}
          onInput={setName}
        />
        <SecretField
          kind="password"
          label={door.password}
          value={password}
          fresh
          error={wrongWith(attempt.trouble, 'password') && attempt.said}
          note={door.password_note}
          onInput={setPassword}
        />
        <TroubleLine text={wrongElsewhere(attempt.trouble, ['name', 'password'])} />
      </form>
    </Screen>
  );
}
