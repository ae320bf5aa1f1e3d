import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import { Field } from '../controls/field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Choice } from '../shell/choice';
import { useKept } from '../state/kept';
import { words } from '../words';
import { FAULTS, mayBeCut } from './faults';
import type { Fault, PracticeSet } from './model';
import { drawnSeed, seedOf } from './seeds';

export const SET_FORM = 'practice-set-form';
export const setDraft = (id: string) => `practice_set.${id}`;
const FIELDS = ['name', 'seed'];

const draw = () => String(drawnSeed((bytes) => crypto.getRandomValues(bytes)));

/** A part for the whole class: its faults drawn by a number, or chosen one by one. */
export function SetForm({ present, onSaved }: { present: PracticeSet | null; onSaved: () => void }) {
  const { set: said, difficulty_of } = words.practice;
  const { draft, change, drop } = useKept(
    setDraft(present?.id ?? 'new'),
    () => ({
      id: present?.id ?? newId(),
      name: present?.name ?? '',
      difficulty: present?.difficulty ?? 1,
      seed: present?.seed == null ? draw() : String(present.seed),
      chosen: present ? present.faults !== null : false,
      faults: [...(present?.faults ?? [])] as Fault[],
      open: present?.open ?? true,
    }),
    present,
  );
  const [asked, setAsked] = useState(false);
  const saving = useSaving();
  const seed = seedOf(draft.seed);
  const submit = (event: Event) => {
    event.preventDefault();
    setAsked(true);
    const name = draft.name.trim();
    if (name === '' || seed === null) return;
    void saving.run(async () => {
      const { difficulty, open, id } = draft;
      const body = { name, seed, difficulty, faults: draft.chosen ? draft.faults : null, open };
      await call('put', '/practice/sets/{set_id}', { path: { set_id: id }, body });
      drop();
      onSaved();
    });
  };
  const nameless = asked && draft.name.trim() === '' ? said.name_needed : undefined;
  return (
    <form class="fields" id={SET_FORM} onSubmit={submit}>
      <Field
        label={said.name}
        hint={said.name_hint}
        value={draft.name}
        focused
        error={wrongWith(saving.trouble, 'name') ?? nameless}
        onInput={(name) => change({ name })}
      />
      <Choice
        shown
        label={said.difficulty}
        value={String(draft.difficulty)}
        options={[0, 1, 2, 3, 4, 5].map((one) => ({ value: String(one), label: difficulty_of(one) }))}
        onChange={(value) => change({ difficulty: Number(value) })}
      />
      <Choice
        shown
        label={said.faults}
        value={draft.chosen ? 'chosen' : 'drawn'}
        options={[
          { value: 'drawn', label: said.by_seed },
          { value: 'chosen', label: said.chosen },
        ]}
        onChange={(value) => change({ chosen: value === 'chosen' })}
      />
      {draft.chosen ? <FaultTicks faults={draft.faults} onFaults={(faults) => change({ faults })} /> : null}
      <Field
        label={said.seed}
        value={draft.seed}
        digits
        inputMode="numeric"
        note={said.seed_note}
        error={wrongWith(saving.trouble, 'seed') ?? (asked && seed === null ? said.seed_bad : undefined)}
        onInput={(text) => change({ seed: text })}
        after={
          <button type="button" onClick={() => change({ seed: draw() })}>
            {said.seed_again}
          </button>
        }
      />
      <Choice
        shown
        label={said.open}
        value={draft.open ? 'open' : 'closed'}
        options={(['open', 'closed'] as const).map((value) => ({ value, label: said.opens[value] }))}
        onChange={(value) => change({ open: value === 'open' })}
      />
      <TroubleLine text={wrongElsewhere(saving.trouble, FIELDS)} />
    </form>
  );
}

function FaultTicks({ faults, onFaults }: { faults: readonly Fault[]; onFaults: (faults: Fault[]) => void }) {
  const { practice } = words;
  const tick = (fault: Fault, on: boolean) =>
    onFaults(FAULTS.filter((one) => (one === fault ? on : faults.includes(one))));
  return (
    <fieldset class="practice-faults">
      <legend class="group-label">{practice.set.faults}</legend>
      {faults.length === 0 ? <p class="small soft">{practice.set.nothing_chosen}</p> : null}
      {faults.length > 0 && !mayBeCut(faults) ? <p class="small soft">{practice.set.nothing_to_cut}</p> : null}
      {FAULTS.map((fault) => (
        <label key={fault} class="tick">
          <input
            type="checkbox"
            checked={faults.includes(fault)}
            onChange={(event) => tick(fault, event.currentTarget.checked)}
          />
          <span>
            {practice.fault(fault)} <span class="small soft practice-fault-means">{practice.faults[fault]?.means}</span>
          </span>
        </label>
      ))}
    </fieldset>
  );
}
