import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Competence } from '../api/schema';
import { Field } from '../controls/field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { EditableList } from '../shop/editable_list';
import { InUse } from '../shop/list';
import { useStanding } from '../state/answer';
import { useKept } from '../state/kept';
import { COMPETENCES } from '../state/kinds';
import { leads } from '../state/role';
import { words } from '../words';
import './competences.css';
import { lastPlace } from './levels';
import { StarterList } from './starter_list';

const FORM = 'competence';

const draftOf = (id: string) => `competence.${id}`;

/** What this school teaches: the teacher's own list. */
export function CompetenceList() {
  const { competences } = words;
  const { answer, trouble, again } = useStanding(() => call('get', '/competences'), COMPETENCES);
  return (
    <EditableList
      screen="competences"
      title={competences.list_title}
      add={competences.add}
      lead={competences.lead}
      none={competences.none}
      lines={answer}
      trouble={trouble}
      name={(one) => one.name}
      about={(one) => one.words}
      form_id={FORM}
      form={(present, onSaved) => <CompetenceForm {...{ present, onSaved }} place={lastPlace(answer ?? [])} />}
      draftOf={draftOf}
      onSaved={again}
      otherwise={
        <a class="button main" href="/evidence">
          {competences.own_title}
        </a>
      }
    >
      {leads.value && answer ? <StarterList onTaken={again} /> : null}
    </EditableList>
  );
}

interface FormProps {
  present: Competence | null;
  place: number;
  onSaved: () => void;
}

function CompetenceForm({ present, place, onSaved }: FormProps) {
  const { competences } = words;
  const { draft, change, drop } = useKept(
    draftOf(present?.id ?? 'new'),
    () => ({
      id: present?.id ?? newId(),
      name: present?.name ?? '',
      words: present?.words ?? '',
      position: String(present?.position ?? place),
      active: present?.active ?? true,
    }),
    present,
  );
  const [asked, setAsked] = useState(false);
  const saving = useSaving();
  const placed = /^\d{1,4}$/.test(draft.position.trim());
  const ready = draft.name.trim() !== '' && placed;
  const submit = (event: Event) => {
    event.preventDefault();
    setAsked(true);
    if (!ready) return;
    void saving.run(async () => {
      const { id, active } = draft;
      const body = { id, active, name: draft.name.trim(), words: draft.words.trim(), position: Number(draft.position) };
      await call('put', '/competences/{competence_id}', { path: { competence_id: id }, body });
      drop();
      onSaved();
    });
  };
  const nameless = asked && draft.name.trim() === '' ? words.shop.needed_here : undefined;
  return (
    <form class="fields" id={FORM} onSubmit={submit}>
      <Field
        label={competences.name}
        value={draft.name}
        focused
        error={wrongWith(saving.trouble, 'name') ?? nameless}
        onInput={(name) => change({ name })}
      />
      <Field
        label={competences.words}
        lines={3}
        value={draft.words}
        error={wrongWith(saving.trouble, 'words')}
        onInput={(text) => change({ words: text })}
      />
      <Field
        label={competences.position}
        value={draft.position}
        digits
        inputMode="numeric"
        error={wrongWith(saving.trouble, 'position') ?? (asked && !placed ? competences.position_bad : undefined)}
        onInput={(position) => change({ position })}
      />
      <InUse active={draft.active} onChange={(active) => change({ active })} />
      <TroubleLine text={wrongElsewhere(saving.trouble, ['name', 'words', 'position'])} />
    </form>
  );
}
