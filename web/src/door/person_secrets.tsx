import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { Person } from '../api/schema';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { doors, loadDoors } from '../state/doors';
import { person as present } from '../state/shop';
import { words } from '../words';
import './door.css';
import { SetSecret } from './own_secrets';

/** What a teacher can do about what somebody else comes in with. */
export function PersonSecrets({ person }: { person: Person }) {
  const [giving, setGiving] = useState(false);
  const { busy, trouble, run } = useSaving();
  const at = doors.value?.people.find((one) => one.id === person.id);
  if (!doors.value?.closed || !at || at.id === present.value?.id) return null;
  const kind = at.secret_kind;
  const takeAway = () =>
    run(async () => {
      await call('delete', '/people/{person_id}/secret/{kind}', { path: { person_id: at.id, kind } });
      await loadDoors();
    });
  const { door } = words;
  return (
    <section class="door-form" aria-label={door.secret[kind]}>
      <p class="soft">{at.has_secret ? door.has_one(kind) : door.has_none(kind)}</p>
      <div class="row">
        <button type="button" aria-pressed={giving} onClick={() => setGiving(!giving)}>
          {door.give[kind]}
        </button>
        {kind === 'pin' && at.has_secret ? (
          <button type="button" disabled={busy} onClick={takeAway}>
            {door.take_away}
          </button>
        ) : null}
      </div>
      <TroubleLine text={trouble?.message} />
      {giving ? <SetSecret id={at.id} kind={kind} /> : null}
    </section>
  );
}
