import { useState } from 'preact/hooks';
import { wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Drawer } from '../shell/drawer';
import { closeDoors, doors } from '../state/doors';
import { person } from '../state/shop';
import { words } from '../words';
import { useAttempt } from './attempt';
import './door.css';
import { SecretField } from './secret_field';

/** Tells a teacher of a shop without secrets that its doors are open, and closes them. */
export function OpenDoors() {
  const [open, setOpen] = useState(false);
  const teacher = person.value;
  if (doors.value?.closed !== false || teacher?.role !== 'teacher') return null;
  const { door } = words;
  return (
    <section class="doubt" aria-label={door.open_title}>
      <h2>{door.open_title}</h2>
      <p>{door.open_why}</p>
      <button type="button" onClick={() => setOpen(true)}>
        {door.open_close}
      </button>
      {open ? (
        <Drawer title={door.open_close} onClose={() => setOpen(false)}>
          <Close teacher={teacher} onDone={() => setOpen(false)} />
        </Drawer>
      ) : null}
    </section>
  );
}

function Close({ teacher, onDone }: { teacher: { id: string; name: string }; onDone: () => void }) {
  const [password, setPassword] = useState('');
  const attempt = useAttempt();
  const close = async (event: Event) => {
    event.preventDefault();
    if (await attempt.run(() => closeDoors(teacher, password))) onDone();
  };
  return (
    <form class="door-form" onSubmit={close}>
      <SecretField
        kind="password"
        label={words.door.password}
        value={password}
        fresh
        focused
        error={wrongWith(attempt.trouble, 'password') && attempt.said}
        note={words.door.password_note}
        onInput={setPassword}
      />
      <TroubleLine text={wrongElsewhere(attempt.trouble, ['password'])} />
      <button type="submit" class="main" disabled={attempt.busy || password === ''}>
        {words.door.close}
      </button>
    </form>
  );
}
