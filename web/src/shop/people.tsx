import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Person } from '../api/schema';
import { Field } from '../controls/field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { PersonSecrets } from '../door/person_secrets';
import { Choice } from '../shell/choice';
import { loadDoors } from '../state/doors';
import { loadShop, shop } from '../state/shop';
import { words } from '../words';
import { InUse, ThingForm, ThingRoom } from './list';

const ROLES: readonly Person['role'][] = ['teacher', 'student', 'lead_hand', 'visitor'];

export function People() {
  return (
    <ThingRoom
      room="people"
      things={shop.value?.people ?? []}
      none={words.shop.people.none}
      add={words.shop.people.add}
      about={(person) => words.trade.role[person.role]}
      form={(person, onDone) => (
        <>
          <PersonForm person={person} onDone={onDone} />
          {person ? <PersonSecrets person={person} /> : null}
        </>
      )}
    >
      <p>
        <a href="/class">{words.shop.people.many}</a>
      </p>
    </ThingRoom>
  );
}

const put = (body: Person) => call('put', '/people/{person_id}', { path: { person_id: body.id }, body });

function PersonForm({ person, onDone }: { person: Person | null; onDone: () => void }) {
  const { people } = words.shop;
  const [draft, setDraft] = useState<Person>(person ?? { id: newId(), name: '', role: 'student', active: true });
  const saving = useSaving();
  const save = () =>
    saving.run(async () => {
      await put({ ...draft, name: draft.name.trim() });
      await Promise.all([loadShop(), loadDoors()]);
      onDone();
    });
  return (
    <ThingForm
      busy={saving.busy}
      ready={draft.name.trim() !== ''}
      elsewhere={wrongElsewhere(saving.trouble, ['name'])}
      onSave={save}
    >
      <Field
        label={people.name}
        value={draft.name}
        focused
        error={wrongWith(saving.trouble, 'name')}
        onInput={(name) => setDraft({ ...draft, name })}
      />
      <Choice
        shown
        label={people.role}
        value={draft.role}
        options={ROLES.map((value) => ({ value, label: words.trade.role[value] }))}
        onChange={(role) => setDraft({ ...draft, role })}
      />
      <InUse active={draft.active} onChange={(active) => setDraft({ ...draft, active })} />
    </ThingForm>
  );
}
