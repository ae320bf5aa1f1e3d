import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { SchoolClass } from '../api/schema';
import { Field } from '../controls/field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { useKept } from '../state/kept';
import { words } from '../words';
import { dayTyped } from './members';

export const CLASS_FORM = 'class-form';
/** Under which name the draft of a class, or of a new one, is kept. */
export const draftOf = (id: string) => `class.${id}`;

const FIELDS = ['name', 'term', 'starts_on', 'ends_on'];

/** A class of one term: its name, and its days where they are known. */
export function ClassForm({ present, onSaved }: { present: SchoolClass | null; onSaved: (id: string) => void }) {
  const { classes } = words;
  const { draft, change, drop } = useKept(
    draftOf(present?.id ?? 'new'),
    () => ({
      id: present?.id ?? newId(),
      name: present?.name ?? '',
      term: present?.term ?? '',
      starts_on: present?.starts_on ?? '',
      ends_on: present?.ends_on ?? '',
    }),
    present,
  );
  const [asked, setAsked] = useState(false);
  const saving = useSaving();
  const days = { starts_on: dayTyped(draft.starts_on), ends_on: dayTyped(draft.ends_on) };
  const ready = draft.name.trim() !== '' && days.starts_on !== undefined && days.ends_on !== undefined;
  const submit = (event: Event) => {
    event.preventDefault();
    setAsked(true);
    const { starts_on, ends_on } = days;
    if (!ready || starts_on === undefined || ends_on === undefined) return;
    void saving.run(async () => {
      const text = { name: draft.name.trim(), term: draft.term.trim() };
      const body = { id: draft.id, ...text, starts_on, ends_on, archived: present?.archived ?? false };
      await call('put', '/classes/{class_id}', { path: { class_id: draft.id }, body });
      drop();
      onSaved(draft.id);
    });
  };
  const wrongDay = (name: 'starts_on' | 'ends_on') =>
    wrongWith(saving.trouble, name) ?? (asked && days[name] === undefined ? classes.day_bad : undefined);
  const nameless = asked && draft.name.trim() === '' ? words.shop.needed_here : undefined;
  return (
    <form class="fields" id={CLASS_FORM} onSubmit={submit}>
      <Field
        label={classes.name}
        hint={classes.name_hint}
        value={draft.name}
        focused
        error={wrongWith(saving.trouble, 'name') ?? nameless}
        onInput={(name) => change({ name })}
      />
      <Field
        label={classes.term}
        hint={classes.term_hint}
        value={draft.term}
        error={wrongWith(saving.trouble, 'term')}
        onInput={(term) => change({ term })}
      />
      {(['starts_on', 'ends_on'] as const).map((name) => (
        <Field
          key={name}
          label={classes[name]}
          hint={classes.day_hint}
          value={draft[name]}
          digits
          inputMode="text"
          error={wrongDay(name)}
          onInput={(text) => change({ [name]: text })}
        />
      ))}
      <TroubleLine text={wrongElsewhere(saving.trouble, FIELDS)} />
    </form>
  );
}
