import { useEffect, useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Instrument, Unit, ZeroCheck } from '../api/schema';
import { Field } from '../controls/field';
import { LengthField, nmOf } from '../controls/length_field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Choice } from '../shell/choice';
import { length, typedLength } from '../show/length';
import { calendarDay, moment } from '../show/time';
import { loadShop, personName, shop } from '../state/shop';
import { words } from '../words';
import { InUse, ThingForm, ThingRoom } from './list';

const KINDS: readonly Instrument['kind'][] = [
  'micrometer',
  'dial_indicator',
  'depth_gauge',
  'caliper',
  'roughness_tester',
];
const DAY = /^[0-9]{4}-[0-9]{2}-[0-9]{2}$/;

export function Instruments() {
  return (
    <ThingRoom
      room="instruments"
      things={shop.value?.instruments ?? []}
      none={words.shop.instruments.none}
      add={words.shop.instruments.add}
      about={(one) => about(one, today())}
      form={(one, onDone) => <InstrumentForm instrument={one} onDone={onDone} />}
    />
  );
}

const today = () => new Date().toISOString().slice(0, 10);

/** How fine it reads, how far it may be out, and whether its calibration still holds. */
function about(one: Instrument, day: string): string {
  const { instruments } = words.shop;
  const how = { unit: one.default_unit, resolution_nm: Math.max(1, Math.round(one.resolution_nm / 10)) };
  const due = one.calibration_due_on;
  return [
    words.trade.instrumentKind[one.kind],
    `${instruments.step} ${length(one.resolution_nm, { ...how, resolution_nm: one.resolution_nm })}`,
    `${instruments.error} ${length(one.mpe_nm, how)}`,
    `${instruments.scatter} ${length(one.repeatability_nm, how)}`,
    due ? (due < day ? instruments.overdue : instruments.due(calendarDay(due))) : instruments.no_calibration,
  ].join(' · ');
}

type LengthName = 'resolution_nm' | 'mpe_nm' | 'repeatability_nm';

/** What a length in the form began as, without its unit. */
function textOf(nm: number | undefined, unit: Unit): string {
  if (!nm) return '';
  const value = nm / (unit === 'mm' ? 1e6 : 25.4e6);
  return String(Number(value.toFixed(8)));
}

function InstrumentForm({ instrument, onDone }: { instrument: Instrument | null; onDone: () => void }) {
  const { instruments } = words.shop;
  const startUnit = instrument?.default_unit ?? shop.value?.settings.default_unit ?? 'mm';
  const [draft, setDraft] = useState<Instrument>(() => instrument ?? empty(startUnit));
  const [texts, setTexts] = useState<Record<LengthName, string>>(() => ({
    resolution_nm: textOf(instrument?.resolution_nm, startUnit),
    mpe_nm: textOf(instrument?.mpe_nm, startUnit),
    repeatability_nm: textOf(instrument?.repeatability_nm, startUnit),
  }));
  const saving = useSaving();
  const change = (part: Partial<Instrument>) => setDraft({ ...draft, ...part });
  const save = () =>
    saving.run(async () => {
      const dates = {
        calibrated_on: draft.calibrated_on || null,
        calibration_due_on: draft.calibration_due_on || null,
      };
      const [resolution_nm, mpe_nm, repeatability_nm] = await Promise.all(
        (['resolution_nm', 'mpe_nm', 'repeatability_nm'] as const).map((field) =>
          nmOf(texts[field], draft.default_unit, field),
        ),
      );
      const body = {
        ...draft,
        ...dates,
        name: draft.name.trim(),
        resolution_nm: resolution_nm ?? 0,
        mpe_nm: mpe_nm ?? 0,
        repeatability_nm: repeatability_nm ?? 0,
      };
      await call('put', '/instruments/{instrument_id}', { path: { instrument_id: body.id }, body });
      await loadShop();
      onDone();
    });
  const lengthOf = (name: LengthName, label: string, note?: string) => (
    <LengthField
      label={label}
      {...(note ? { note } : {})}
      value={texts[name]}
      unit={draft.default_unit}
      error={wrongWith(saving.trouble, name)}
      onInput={(text) => setTexts({ ...texts, [name]: text })}
      onUnit={(default_unit) => change({ default_unit })}
    />
  );
  const day = (name: 'calibrated_on' | 'calibration_due_on') => (
    <label class="field">
      <span class="field-label">{instruments[name]}</span>
      <input
        type="date"
        value={draft[name] ?? ''}
        onInput={(event) => change({ [name]: DAY.test(event.currentTarget.value) ? event.currentTarget.value : null })}
      />
      {wrongWith(saving.trouble, name) ? (
        <p class="field-error" role="alert">
          {wrongWith(saving.trouble, name)}
        </p>
      ) : null}
    </label>
  );
  return (
    <ThingForm
      busy={saving.busy}
      ready={draft.name.trim() !== '' && texts.resolution_nm.trim() !== ''}
      elsewhere={wrongElsewhere(saving.trouble, [
        'name',
        'serial',
        'resolution_nm',
        'mpe_nm',
        'repeatability_nm',
        'calibrated_on',
        'calibration_due_on',
      ])}
      onSave={save}
    >
      <Choice
        shown
        label={instruments.kind}
        value={draft.kind}
        options={KINDS.map((value) => ({ value, label: words.trade.instrumentKind[value] }))}
        onChange={(kind) => change({ kind })}
      />
      <Field
        label={instruments.name}
        hint={instruments.name_hint}
        value={draft.name}
        error={wrongWith(saving.trouble, 'name')}
        onInput={(name) => change({ name })}
      />
      <Field
        label={instruments.serial}
        value={draft.serial}
        error={wrongWith(saving.trouble, 'serial')}
        onInput={(serial) => change({ serial })}
      />
      {lengthOf('resolution_nm', instruments.resolution)}
      {lengthOf('mpe_nm', instruments.mpe, instruments.mpe_note)}
      {lengthOf('repeatability_nm', instruments.repeatability, instruments.repeatability_note)}
      <div class="pair">
        {day('calibrated_on')}
        {day('calibration_due_on')}
      </div>
      <InUse active={draft.active} onChange={(active) => change({ active })} />
      {instrument ? <ZeroChecks instrument={instrument} /> : null}
    </ThingForm>
  );
}

function empty(default_unit: Unit): Instrument {
  return {
    id: newId(),
    name: '',
    kind: 'micrometer',
    serial: '',
    resolution_nm: 0,
    mpe_nm: 0,
    repeatability_nm: 0,
    default_unit,
    calibrated_on: null,
    calibration_due_on: null,
    active: true,
  };
}

/** The last zero checks of an instrument, newest first. They are taken where it measures. */
function ZeroChecks({ instrument }: { instrument: Instrument }) {
  const { instruments } = words.shop;
  const [checks, setChecks] = useState<ZeroCheck[] | null>(null);
  const saving = useSaving();
  useEffect(() => {
    void saving.run(async () =>
      setChecks(await call('get', '/zero-checks', { query: { instrument_id: instrument.id } })),
    );
  }, [instrument.id]);
  return (
    <section aria-label={instruments.zero_checks}>
      <h2>{instruments.zero_checks}</h2>
      <TroubleLine text={saving.trouble?.message} />
      {checks?.length === 0 ? <p class="small soft">{instruments.no_zero_checks}</p> : null}
      <ul>
        {checks?.slice(0, MOST_CHECKS).map((one) => (
          <li key={one.id} class="zero-check small">
            <span class="figures">{typedLength(one.error)}</span>
            <span class="soft">
              {personName(one.by_person_id)}, {moment(one.at, new Date())}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

const MOST_CHECKS = 8;
