import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { words } from '../words';

interface Thing {
  id: string;
  name: string;
  active?: boolean;
}

interface Props<T extends Thing> {
  things: readonly T[];
  none: string;
  add: string;
  /** The line under a thing's name. */
  about: (thing: T) => ComponentChildren;
  form: (thing: T | null, onDone: () => void) => ComponentChildren;
}

/** Things of the shop as lines; one opens at a time, to be changed. What is no longer in use stands at the end. */
export function ThingList<T extends Thing>({ things, none, add, about, form }: Props<T>) {
  const [open, setOpen] = useState<string | null>(null);
  const inUse = (thing: Thing) => thing.active !== false;
  const sorted = [...things.filter(inUse), ...things.filter((thing) => !inUse(thing))];
  const close = () => setOpen(null);
  return (
    <>
      {things.length === 0 ? <p class="soft">{none}</p> : null}
      <ul class="things">
        {sorted.map((thing) => (
          <li key={thing.id}>
            {open === thing.id ? (
              <div class="thing-form">{form(thing, close)}</div>
            ) : (
              <button
                type="button"
                class="plain thing"
                aria-label={words.shop.change(thing.name)}
                onClick={() => setOpen(thing.id)}
              >
                <span class="thing-name">{thing.name}</span>
                <span class="small soft">{inUse(thing) ? about(thing) : words.shop.retired}</span>
              </button>
            )}
          </li>
        ))}
      </ul>
      {open === 'new' ? (
        <div class="thing-form">{form(null, close)}</div>
      ) : (
        <button type="button" class="main" onClick={() => setOpen('new')}>
          {add}
        </button>
      )}
    </>
  );
}

interface FormProps {
  busy: boolean;
  ready: boolean;
  elsewhere: string | undefined;
  onSave: () => void;
  onCancel: () => void;
  children: ComponentChildren;
}

export function ThingForm({ busy, ready, elsewhere, onSave, onCancel, children }: FormProps) {
  return (
    <form
      class="fields"
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) onSave();
      }}
    >
      {children}
      {elsewhere ? (
        <p class="trouble" role="alert">
          {elsewhere}
        </p>
      ) : null}
      <div class="row">
        <button type="submit" class="main" disabled={busy || !ready}>
          {words.shop.save}
        </button>
        <button type="button" class="plain" onClick={onCancel}>
          {words.shop.cancel}
        </button>
      </div>
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
