import { useState } from 'preact/hooks';
import { send } from '../api/client';
import { newId } from '../api/ids';
import { OwnSecrets } from '../door/own_secrets';
import { doors, loadDoors } from '../state/doors';
import { loadShop, people, person, workAs } from '../state/shop';
import { words } from '../words';
import { Drawer } from './drawer';

/** Who works at this tablet: one tap to see, one to change. Opens by itself while nobody is named. */
export function PersonSwitch() {
  const [open, setOpen] = useState(false);
  return (
    <>
      <button type="button" class="plain who" onClick={() => setOpen(true)}>
        {person.value?.name ?? words.shell.nobody}
      </button>
      {open && (
        <Drawer title={doors.value?.closed ? words.door.you : words.shell.workAs} onClose={() => setOpen(false)}>
          {doors.value?.closed ? (
            <OwnSecrets onLeave={() => setOpen(false)} />
          ) : (
            <PersonTiles onChosen={() => setOpen(false)} />
          )}
        </Drawer>
      )}
    </>
  );
}

export function PersonTiles({ onChosen }: { onChosen: () => void }) {
  const [name, setName] = useState('');
  const [trouble, setTrouble] = useState('');
  const choose = (id: string) => {
    workAs(id);
    onChosen();
  };
  const add = async (event: Event) => {
    event.preventDefault();
    const id = newId();
    try {
      await addPerson(id, name.trim());
      choose(id);
    } catch (cause) {
      setTrouble(cause instanceof Error ? cause.message : String(cause));
    }
  };
  return (
    <>
      <ul class="tiles">
        {people.value.map((one) => (
          <li key={one.id}>
            <button type="button" aria-pressed={one.id === person.value?.id} onClick={() => choose(one.id)}>
              <span>{one.name}</span>
              <span class="small soft">{words.trade.role[one.role]}</span>
            </button>
          </li>
        ))}
      </ul>
      <form class="add-person" onSubmit={add}>
        <label>
          <span class="soft">{people.value.length ? words.shell.addName : words.shell.name}</span>
          <input value={name} maxLength={80} onInput={(event) => setName(event.currentTarget.value)} />
        </label>
        <button type="submit" disabled={name.trim() === ''}>
          {words.shell.add}
        </button>
      </form>
      {trouble && <p role="alert">{trouble}</p>}
    </>
  );
}

async function addPerson(id: string, name: string): Promise<void> {
  const by = person.value?.id ?? people.value[0]?.id ?? id;
  await send({
    method: 'put',
    path: `/people/${id}`,
    query: { by_person_id: by },
    body: { id, name, role: 'student', active: true },
  });
  await Promise.all([loadShop(), loadDoors()]);
}
