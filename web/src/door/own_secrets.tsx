import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { wrongElsewhere } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { doors, leave, loadDoors } from '../state/doors';
import { person } from '../state/shop';
import { words } from '../words';
import { useAttempt } from './attempt';
import './door.css';
import { SecretField } from './secret_field';

/** What a person who is signed in can do about that: leave, or set what they come in and sign with. */
export function OwnSecrets({ onLeave }: { onLeave: () => void }) {
  const [form, setForm] = useState<'pin' | 'password' | null>(null);
  const at = doors.value?.people.find((one) => one.id === person.value?.id);
  if (!at) return null;
  const { door } = words;
  const kinds = at.secret_kind === 'password' ? (['password', 'pin'] as const) : (['pin'] as const);
  const nameOf = (kind: 'pin' | 'password') =>
    kind === 'pin' && at.secret_kind === 'password' ? door.mine.signing : door.mine[kind];
  return (
    <>
      <p>
        {at.name}, {words.trade.role[at.role]}
      </p>
      <button
        type="button"
        class="main"
        onClick={() => {
          onLeave();
          void leave(null);
        }}
      >
        {door.leave}
      </button>
      {kinds.map((kind) => (
        <button
          key={kind}
          type="button"
          aria-pressed={form === kind}
          onClick={() => setForm(form === kind ? null : kind)}
        >
          {nameOf(kind)}
        </button>
      ))}
      {form ? <SetSecret key={form} id={at.id} kind={form} present_kind={at.secret_kind} /> : null}
    </>
  );
}

interface SetProps {
  id: string;
  kind: 'pin' | 'password';
  /** What the present one is asked by; none where a teacher sets somebody else's. */
  present_kind?: 'pin' | 'password';
}

/** Sets a secret, one's own with the present one. */
export function SetSecret({ id, kind, present_kind }: SetProps) {
  const [present, setPresent] = useState('');
  const [secret, setSecret] = useState('');
  const [done, setDone] = useState(false);
  const attempt = useAttempt();
  const { door } = words;
  const set = async (event: Event) => {
    event.preventDefault();
    setDone(false);
    const body = { kind, secret, present_secret: present_kind ? present : null };
    const went = await attempt.run(async () => {
      await call('put', '/people/{person_id}/secret', { path: { person_id: id }, body });
      await loadDoors();
    });
    setPresent('');
    if (went) setSecret('');
    setDone(went);
  };
  const presentWrong = attempt.trouble?.code === 'wrong_secret' || attempt.trouble?.code === 'wait';
  const freshWrong = attempt.trouble?.code === 'too_weak' || attempt.trouble?.code === 'too_long';
  return (
    <form class="door-form" onSubmit={set}>
      {present_kind ? (
        <SecretField
          kind={present_kind}
          label={door.present[present_kind]}
          value={present}
          focused
          disabled={attempt.wait_s > 0}
          error={presentWrong ? attempt.said : undefined}
          onInput={setPresent}
        />
      ) : null}
      <SecretField
        kind={kind}
        label={door.fresh[kind]}
        value={secret}
        fresh
        error={freshWrong ? attempt.said : undefined}
        note={kind === 'pin' && present_kind === 'password' ? door.signing_why : undefined}
        onInput={setSecret}
      />
      <TroubleLine text={presentWrong || freshWrong ? undefined : wrongElsewhere(attempt.trouble, [])} />
      <button type="submit" disabled={attempt.busy || secret === '' || attempt.wait_s > 0}>
        {door.set}
      </button>
      {done ? <p role="status">{door.is_set}</p> : null}
    </form>
  );
}
