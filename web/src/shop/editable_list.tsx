import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { Trouble } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { forgetKept } from '../state/kept';
import { leads } from '../state/role';
import { words } from '../words';
import './shop.css';

interface Line {
  id: string;
  active: boolean;
}

interface Props<T extends Line> {
  screen: string;
  title: string;
  add: string;
  lead: string;
  none: string;
  /** Null until the shop has answered. */
  lines: readonly T[] | null;
  trouble: Trouble | null;
  name: (one: T) => string;
  /** The words under a name, while it is in use. */
  about: (one: T) => string;
  form_id: string;
  form: (present: T | null, onSaved: () => void) => ComponentChildren;
  /** Under which name the draft of one, or of a new one, is kept. */
  draftOf: (id: string) => string;
  onSaved: () => void;
  /** What is done next by whoever may only read. */
  otherwise?: ComponentChildren;
  children?: ComponentChildren;
}

/** A teacher's own list of the class: its lines, and one of them, or a new one, as the form in their place. */
export function EditableList<T extends Line>(props: Props<T>) {
  const { screen, title, add, lead, none, lines, trouble, form_id, form, draftOf, onSaved, otherwise } = props;
  const [open, setOpen] = useState<string | null>(null);
  const all = lines ?? [];
  const saved = () => {
    setOpen(null);
    onSaved();
  };
  const cancel = () => {
    forgetKept(draftOf(open ?? ''));
    setOpen(null);
  };
  const next = open ? (
    <button key="save" type="submit" form={form_id} class="main">
      {words.shop.save}
    </button>
  ) : leads.value ? (
    <button key="add" type="button" class="main" onClick={() => setOpen('new')}>
      {add}
    </button>
  ) : (
    otherwise
  );
  const aside = open ? (
    <button type="button" onClick={cancel}>
      {words.shop.cancel}
    </button>
  ) : (
    <a class="button" href="/class">
      {words.classes.title}
    </a>
  );
  return (
    <Screen name={screen} title={title} next={next} aside={aside}>
      <TroubleLine text={trouble?.message} />
      {open ? (
        <div key={open}>{form(all.find((one) => one.id === open) ?? null, saved)}</div>
      ) : (
        <>
          <p class="soft">{lines?.length === 0 ? none : lead}</p>
          <ul class="things">
            {all.map((one) => (
              <li key={one.id}>
                <Row {...props} one={one} onOpen={() => setOpen(one.id)} />
              </li>
            ))}
          </ul>
          {props.children}
        </>
      )}
    </Screen>
  );
}

interface RowProps<T extends Line> extends Pick<Props<T>, 'name' | 'about'> {
  one: T;
  onOpen: () => void;
}

function Row<T extends Line>({ one, name, about, onOpen }: RowProps<T>) {
  const said = (
    <>
      <span class="thing-name">{name(one)}</span>{' '}
      <span class="small soft">{one.active ? about(one) : words.shop.retired}</span>
    </>
  );
  if (!leads.value) return <div class="thing">{said}</div>;
  return (
    <button type="button" class="plain thing" onClick={onOpen}>
      {said}
    </button>
  );
}
