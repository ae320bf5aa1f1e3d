import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { TroubleLine } from '../controls/trouble_line';
import { forgetKept } from '../state/kept';
import { words } from '../words';
import { FORM, type RoomName, SaveForm, ShopFrame } from './frame';

interface Thing {
  id: string;
  name: string;
  active?: boolean;
}

interface Props<T extends Thing> {
  room: RoomName;
  things: readonly T[];
  none: string;
  add: string;
  /** The line under a thing's name. */
  about: (thing: T) => ComponentChildren;
  form: (thing: T | null, onDone: () => void) => ComponentChildren;
  /** Under which name the draft of one, or of a `new` one, is kept, where the form keeps one. */
  draftOf?: (id: string) => string;
  /** Over the list: which of two lists it is. */
  before?: ComponentChildren;
  children?: ComponentChildren;
}

/** Things of the shop as lines; one opens at a time, to be changed. What is no longer in use stands at the end. */
export function ThingRoom<T extends Thing>(props: Props<T>) {
  const { room, things, none, add, about, form, draftOf, before, children } = props;
  const [open, setOpen] = useState<string | null>(null);
  const inUse = (thing: Thing) => thing.active !== false;
  const sorted = [...things.filter(inUse), ...things.filter((thing) => !inUse(thing))];
  const close = () => setOpen(null);
  const cancel = () => {
    if (draftOf && open) forgetKept(draftOf(open));
    close();
  };
  const addOne = (
    <button type="button" class="main" onClick={() => setOpen('new')}>
      {add}
    </button>
  );
  const leave = (
    <button type="button" onClick={cancel}>
      {words.shop.cancel}
    </button>
  );
  return (
    <ShopFrame room={room} next={open === null ? addOne : <SaveForm />} aside={open === null ? undefined : leave}>
      {open === null ? before : null}
      {open === 'new' ? <div class="thing-form">{form(null, close)}</div> : null}
      {things.length === 0 && open === null ? <p class="soft">{none}</p> : null}
      <ul class="things">
        {sorted.map((thing) => (
          <li key={thing.id}>
            {open === thing.id ? (
              <div class="thing-form">{form(thing, close)}</div>
            ) : (
              <button type="button" class="plain thing" onClick={() => setOpen(thing.id)}>
                <span class="thing-name">{thing.name}</span>{' '}
                <span class="small soft">{inUse(thing) ? about(thing) : words.shop.retired}</span>
              </button>
            )}
          </li>
        ))}
      </ul>
      {open === null ? children : null}
    </ShopFrame>
  );
}

interface FormProps {
  busy: boolean;
  ready: boolean;
  elsewhere: string | undefined;
  onSave: () => void;
  /** Saving was asked for before the form was ready for it. */
  onAsked?: () => void;
  /** Anything was typed: what the shop refused may be right now. */
  onTyped?: () => void;
  children: ComponentChildren;
}

export function ThingForm({ busy, ready, elsewhere, onSave, onAsked, onTyped, children }: FormProps) {
  const [asked, setAsked] = useState(0);
  const form = useRef<HTMLFormElement>(null);
  useLayoutEffect(() => {
    if (asked > 0) form.current?.querySelector<HTMLInputElement>('[aria-invalid]')?.focus();
  }, [asked]);
  return (
    <form
      ref={form}
      class="fields"
      id={FORM}
      onInput={onTyped}
      onSubmit={(event) => {
        event.preventDefault();
        setAsked(ready ? 0 : asked + 1);
        if (!ready) onAsked?.();
        if (ready && !busy) onSave();
      }}
    >
      {children}
      <TroubleLine text={asked > 0 && !ready ? words.shop.needed : undefined} />
      <TroubleLine text={elsewhere} />
    </form>
  );
}

export function InUse({ active, onChange }: { active: boolean; onChange: (active: boolean) => void }) {
  return (
    <label class="tick">
      <input type="checkbox" checked={active} onChange={(event) => onChange(event.currentTarget.checked)} />
      <span>
        {words.shop.active} <span class="small soft">{words.shop.retire_note}</span>
      </span>
    </label>
  );
}
