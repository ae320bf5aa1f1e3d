import type { ComponentChildren } from 'preact';
import type { Job } from '../api/schema';
import { Field } from '../controls/field';
import { type Trouble, wrongWith } from '../controls/saving';
import { Choice } from '../shell/choice';
import { people, shop } from '../state/shop';
import { type PartKind, words, wordsOf } from '../words';
import type { ArrivalDraft, DraftFault } from './draft';
import { Felt, Rolling } from './felt';

export interface BlockProps {
  draft: ArrivalDraft;
  change: (part: Partial<ArrivalDraft>) => void;
  faults: readonly DraftFault[];
  trouble: Trouble | null;
  /** The rotors of a job are fixed when it is opened. */
  opened: boolean;
  /** On to what is felt, with what is typed here kept first; null where nothing can be kept. */
  detective: (() => void) | null;
  onEnter?: (() => void) | undefined;
}

/** One question block: on a phone the whole screen, on a wide one a part of the page. */
export interface Block {
  name: string;
  question: (draft: Pick<ArrivalDraft, 'kind'>) => string;
  faults: readonly DraftFault[];
  /** Fields that it shows beside themselves what was wrong with. */
  fields: readonly string[];
  body: (props: BlockProps) => ComponentChildren;
}

const COMPLAINTS: readonly Job['complaint'][] = ['pulsation', 'noise', 'pull', 'pad_change', 'inspection', 'practice'];

function Complaint(props: BlockProps) {
  const { draft, change, faults } = props;
  const { choices, question, note, note_hint, habit } = words.arrival.complaint;
  return (
    <>
      <fieldset class="complaints" aria-label={question}>
        {COMPLAINTS.map((complaint) => (
          <button
            key={complaint}
            type="button"
            aria-pressed={draft.complaint === complaint}
            onClick={() => change({ complaint })}
          >
            <span class="complaint-name">{choices[complaint][0]}</span>{' '}
            <span class="small soft">{choices[complaint][1]}</span>
          </button>
        ))}
      </fieldset>
      {faults.includes('complaint') ? (
        <p class="field-error" role="alert">
          {words.arrival.needed.complaint}
        </p>
      ) : null}
      <Field
        label={note}
        hint={note_hint}
        lines={2}
        value={draft.complaint_note}
        onInput={(complaint_note) => change({ complaint_note })}
      />
      <p class="small soft">{habit}</p>
      <Felt {...props} />
    </>
  );
}

function Vehicle(props: BlockProps) {
  const { draft, change, faults, trouble, onEnter } = props;
  const { label, hint, odometer, odometer_hint, unit } = words.arrival.vehicle;
  const wrong = (field: 'vehicle' | 'brought_by' | 'odometer') =>
    faults.includes(field) ? words.arrival.needed[field] : wrongWith(trouble, field);
  return (
    <>
      <Field
        label={label}
        hint={hint}
        value={draft.vehicle}
        error={wrong('vehicle')}
        onInput={(vehicle) => change({ vehicle })}
        onEnter={onEnter}
      />
      <Field
        label={words.arrival.brought_by.question}
        hint={words.arrival.brought_by.hint}
        value={draft.brought_by}
        error={wrong('brought_by')}
        onInput={(brought_by) => change({ brought_by })}
        onEnter={onEnter}
      />
      <div class="odometer">
        <Field
          label={odometer}
          hint={odometer_hint}
          digits
          inputMode="numeric"
          value={draft.odometer}
          error={wrong('odometer')}
          onInput={(text) => change({ odometer: text })}
          onEnter={onEnter}
        />
        <Choice
          label={words.arrival.field.odometer_unit ?? odometer}
          value={draft.odometer_unit}
          options={(['km', 'mi'] as const).map((value) => ({ value, label: unit[value] }))}
          onChange={(odometer_unit) => change({ odometer_unit })}
        />
      </div>
      <Rolling {...props} />
    </>
  );
}

const KINDS: readonly PartKind[] = ['disc', 'drum', 'drum_in_hat'];

function Rotors({ draft, change, opened }: BlockProps) {
  const said = wordsOf(draft.kind).arrival;
  const { axle, sides, sides_note, construction, construction_note, vented, question, kind, kinds } = said.rotors;
  return (
    <>
      <Choice
        shown
        label={kind}
        value={draft.kind}
        options={KINDS.map((value) => ({ value, label: kinds[value], disabled: opened && value !== draft.kind }))}
        onChange={(value) => change({ kind: value })}
      />
      <Choice
        label={question}
        value={draft.axle}
        options={(['front', 'rear'] as const).map((value) => ({ value, label: axle[value] }))}
        onChange={(value) => change({ axle: value })}
      />
      <Choice
        label={sides_note}
        value={draft.sides}
        options={(['both', 'left', 'right'] as const).map((value) => ({
          value,
          label: sides[value],
          disabled: opened && value !== draft.sides,
        }))}
        onChange={(value) => change({ sides: value })}
      />
      <p class="small soft">{opened ? said.fixed : sides_note}</p>
      <Choice
        label={construction_note}
        value={draft.construction}
        options={(['hubless', 'integral_hub'] as const).map((value) => ({ value, label: construction[value] }))}
        onChange={(value) => change({ construction: value })}
      />
      <p class="small soft">{construction_note}</p>
      {draft.kind === 'disc' ? (
        <Choice
          label={`${vented.yes}, ${vented.no}`}
          value={draft.vented ? 'yes' : 'no'}
          options={(['yes', 'no'] as const).map((value) => ({ value, label: vented[value] }))}
          onChange={(value) => change({ vented: value === 'yes' })}
        />
      ) : null}
    </>
  );
}

function Bench({ draft, change }: BlockProps) {
  const { worker, lathe, none, no_lathe, add_lathe } = words.arrival.bench;
  const lathes = (shop.value?.lathes ?? []).filter((one) => one.active);
  const pick = (
    label: string,
    value: string | null,
    options: readonly { id: string; name: string }[],
    on: (id: string | null) => void,
  ) => (
    <label class="field">
      <span class="field-label">{label}</span>
      <select value={value ?? ''} onChange={(event) => on(event.currentTarget.value || null)}>
        <option value="">{none}</option>
        {options.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
    </label>
  );
  return (
    <>
      {pick(worker, draft.worker_person_id, people.value, (worker_person_id) => change({ worker_person_id }))}
      {lathes.length > 0 ? (
        pick(lathe, draft.lathe_id, lathes, (lathe_id) => change({ lathe_id }))
      ) : (
        <p>
          {no_lathe} <a href="/shop/lathes">{add_lathe}</a>
        </p>
      )}
    </>
  );
}

const FELT = ['felt_speed_km_per_h', 'felt_frequency_hz'] as const;

export const blocks: readonly Block[] = [
  {
    name: 'complaint',
    question: () => words.arrival.complaint.question,
    faults: ['complaint', ...FELT],
    fields: ['complaint_note', 'felt_in', ...FELT],
    body: Complaint,
  },
  {
    name: 'vehicle',
    question: () => words.arrival.vehicle.question,
    faults: ['vehicle', 'brought_by', 'odometer', 'vehicle_mass_kg'],
    fields: ['vehicle', 'brought_by', 'odometer', 'vehicle_mass_kg', 'tyre'],
    body: Vehicle,
  },
  {
    name: 'rotors',
    question: ({ kind }) => wordsOf(kind).arrival.rotors.question,
    faults: [],
    fields: [],
    body: Rotors,
  },
  { name: 'bench', question: () => words.arrival.bench.question, faults: [], fields: [], body: Bench },
];
