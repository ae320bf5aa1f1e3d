import { call } from '../api/client';
import { newId } from '../api/ids';
import type { ReferencePart, Unit } from '../api/schema';
import { Field } from '../controls/field';
import { LengthField, typed } from '../controls/length_field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { go } from '../route/router';
import { Screen } from '../shell/screen';
import { useStanding } from '../state/answer';
import { forgetKept, useKept } from '../state/kept';
import { REFERENCE_PARTS } from '../state/kinds';
import { instruments, people, shop } from '../state/shop';
import { words } from '../words';
import {
  blindTo,
  inUse,
  isComplete,
  LEAST_ROUNDS,
  MOST_ROUNDS,
  minutesEach,
  type Planned,
  presetOf,
  readingsEach,
} from './study_plan';
import './studies.css';

interface Draft extends Planned {
  id: string;
  name: string;
  tolerance: string;
  unit: Unit;
}

const DRAFT = 'study';
const FIELDS = ['name', 'reference_part_ids', 'person_ids', 'instrument_ids', 'repeats', 'tolerance'];

/** A teacher plans a study: most of it stands there already. */
export function StudyForm() {
  const said = words.studies.form;
  const { answer, trouble } = useStanding(() => call('get', '/reference-parts'), REFERENCE_PARTS);
  const parts = answer?.filter((one) => one.active);
  if (parts && parts.length >= 2) return <Planning parts={parts} />;
  return (
    <Screen
      name="study-form"
      title={said.title}
      aside={<Leave />}
      next={
        <a class="button main" href="/shop/reference-parts">
          {said.to_parts}
        </a>
      }
    >
      <TroubleLine text={trouble?.message} />
      {parts ? <p>{`${said.no_parts} ${words.studies.parts.none}`}</p> : null}
    </Screen>
  );
}

const Leave = () => (
  <a class="button" href="/studies" onClick={() => forgetKept(DRAFT)}>
    {words.studies.form.leave}
  </a>
);

const begun = (parts: readonly ReferencePart[]): Draft => ({
  ...presetOf(parts, people.value, instruments.value),
  id: newId(),
  name: '',
  tolerance: '',
  unit: shop.value?.settings.default_unit ?? 'mm',
});

function Planning({ parts }: { parts: readonly ReferencePart[] }) {
  const said = words.studies.form;
  const kept = useKept(DRAFT, () => begun(parts));
  const draft = inUse(kept.draft, { parts, people: people.value, instruments: instruments.value });
  const saving = useSaving();
  const change = (some: Partial<Draft>) => {
    kept.change(some);
    saving.setTrouble(null);
  };
  const save = () =>
    saving.run(async () => {
      const { id, tolerance, unit, repeats } = draft;
      const body = {
        id,
        repeats,
        reference_part_ids: [...draft.reference_part_ids],
        person_ids: [...draft.person_ids],
        instrument_ids: [...draft.instrument_ids],
        name: draft.name.trim(),
        closed: false,
        seed: 0,
        tolerance: tolerance.trim() ? typed(tolerance, unit) : null,
      };
      await call('put', '/studies/{study_id}', { path: { study_id: draft.id }, body });
      kept.drop();
      go(`/studies/${draft.id}`);
    });
  return (
    <Screen
      name="study-form"
      title={said.title}
      aside={<Leave />}
      next={
        <button type="button" class="main" disabled={saving.busy || !isComplete(draft)} onClick={save}>
          {said.save}
        </button>
      }
    >
      <div class="fields study-fields">
        <Field
          focused
          label={said.name}
          hint={said.name_hint}
          value={draft.name}
          error={wrongWith(saving.trouble, 'name')}
          onInput={(name) => change({ name })}
        />
        <Ticks
          legend={said.people}
          error={wrongWith(saving.trouble, 'person_ids')}
          all={people.value.map((one) => ({ id: one.id, label: one.name, note: words.trade.role[one.role] }))}
          chosen={draft.person_ids}
          onChange={(person_ids) => change({ person_ids })}
        >
          <div class="row">
            <button
              type="button"
              onClick={() =>
                change({ person_ids: presetOf(parts, people.value, instruments.value).person_ids.slice() })
              }
            >
              {said.everybody}
            </button>
            <button type="button" onClick={() => change({ person_ids: [] })}>
              {said.nobody}
            </button>
          </div>
        </Ticks>
        <Ticks
          legend={said.parts}
          error={wrongWith(saving.trouble, 'reference_part_ids')}
          all={parts.map((one) => ({ id: one.id, label: one.name, note: one.place_words }))}
          chosen={draft.reference_part_ids}
          onChange={(reference_part_ids) => change({ reference_part_ids })}
        />
        <Ticks
          legend={said.instruments}
          error={wrongWith(saving.trouble, 'instrument_ids')}
          all={instruments.value.map((one) => ({
            id: one.id,
            label: one.name,
            note: words.trade.instrumentKind[one.kind],
          }))}
          chosen={draft.instrument_ids}
          onChange={(instrument_ids) => change({ instrument_ids })}
        />
        <Rounds
          value={draft.repeats}
          error={wrongWith(saving.trouble, 'repeats')}
          onChange={(repeats) => change({ repeats })}
        />
        <LengthField
          label={said.tolerance}
          note={said.tolerance_note}
          value={draft.tolerance}
          unit={draft.unit}
          error={wrongWith(saving.trouble, 'tolerance')}
          onInput={(tolerance) => change({ tolerance })}
          onUnit={(unit) => change({ unit })}
        />
        <Foreseen draft={draft} />
        <TroubleLine text={wrongElsewhere(saving.trouble, FIELDS)} />
      </div>
    </Screen>
  );
}

interface TicksProps {
  legend: string;
  all: readonly { id: string; label: string; note: string }[];
  chosen: readonly string[];
  error: string | undefined;
  onChange: (ids: string[]) => void;
  children?: preact.ComponentChildren;
}

/** Some of several, in the order in which they stand. */
function Ticks({ legend, all, chosen, error, onChange, children }: TicksProps) {
  const set = (id: string, on: boolean) =>
    onChange(all.map((one) => one.id).filter((one) => (one === id ? on : chosen.includes(one))));
  return (
    <fieldset class="ticks">
      <legend class="field-label">{legend}</legend>
      {children}
      <div class="ticks-all">
        {all.map((one) => (
          <label key={one.id} class="tick">
            <input
              type="checkbox"
              checked={chosen.includes(one.id)}
              onChange={(event) => set(one.id, event.currentTarget.checked)}
            />
            <span>
              {one.label} <span class="small soft">{one.note}</span>
            </span>
          </label>
        ))}
      </div>
      {error ? (
        <p class="field-error" role="alert">
          {error}
        </p>
      ) : null}
    </fieldset>
  );
}

interface RoundsProps {
  value: number;
  error: string | undefined;
  onChange: (value: number) => void;
}

function Rounds({ value, error, onChange }: RoundsProps) {
  const said = words.studies.form;
  const wrong = error ?? (value < LEAST_ROUNDS ? said.blind.one_round : '');
  return (
    <fieldset class="rounds">
      <legend class="field-label">{said.rounds}</legend>
      <div class="rounds-line">
        <button type="button" aria-label={said.fewer} disabled={value <= 1} onClick={() => onChange(value - 1)}>
          −
        </button>
        <output class="figures rounds-value">{value}</output>
        <button
          type="button"
          aria-label={said.more}
          disabled={value >= MOST_ROUNDS}
          onClick={() => onChange(value + 1)}
        >
          +
        </button>
      </div>
      {wrong ? (
        <p class="field-error" role="alert">
          {wrong}
        </p>
      ) : null}
      <p class="small soft">{said.rounds_note}</p>
    </fieldset>
  );
}

/** How many readings, about how long, and what it will not tell. */
function Foreseen({ draft }: { draft: Draft }) {
  const said = words.studies.form;
  const each = readingsEach(draft);
  const blind = blindTo({ ...draft, has_tolerance: draft.tolerance.trim() !== '' }).filter(
    (one) => one !== 'one_round',
  );
  return (
    <section class="foreseen" aria-live="polite">
      <p class="foreseen-each">{said.each(each, minutesEach(draft))}</p>
      <p class="small soft">{`${said.all(each * draft.person_ids.length)}. ${said.each_note}`}</p>
      {blind.length > 0 ? (
        <>
          <h3>{said.cannot}</h3>
          <ul class="foreseen-blind">
            {blind.map((one) => (
              <li key={one}>{said.blind[one]}</li>
            ))}
          </ul>
        </>
      ) : null}
    </section>
  );
}
