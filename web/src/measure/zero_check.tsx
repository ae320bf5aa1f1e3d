import { computed, effect, signal } from '@preact/signals';
import { useState } from 'preact/hooks';
import { call, signed } from '../api/client';
import { newId } from '../api/ids';
import type { Instrument, ZeroCheck } from '../api/schema';
import { typedLength } from '../show/length';
import { calendarDay, moment } from '../show/time';
import { lastChange, outbox } from '../state/connection';
import { jobFile } from '../state/job';
import { words } from '../words';

/** The newest zero check of each instrument that was asked about; null when it has none. */
const known = signal<Record<string, ZeroCheck | null>>({});

export const zeroOf = (instrument: Instrument | null) => (instrument ? known.value[instrument.id] : null);

export async function askZero(instrument_id: string): Promise<void> {
  const answer = await call('get', '/zero-checks', { query: { instrument_id } });
  known.value = { ...known.value, [instrument_id]: answer[0] ?? null };
}

effect(() => {
  const change = lastChange.value;
  if (!change?.kind.startsWith('zero')) return;
  const id = (change.detail as { instrument_id?: string }).instrument_id;
  if (id) askZero(id).catch(() => undefined);
});

outbox.onAnswer((entry, answer) => {
  if (entry.about !== 'zero check') return;
  const check = answer as ZeroCheck;
  known.value = { ...known.value, [check.instrument_id]: check };
});

const waitingFor = computed(
  () =>
    new Set(
      outbox.waiting.value
        .filter((entry) => entry.about === 'zero check')
        .map((entry) => (entry.sent.body as { instrument_id: string }).instrument_id),
    ),
);

const today = (utc: string) => new Date(utc).toDateString() === new Date().toDateString();

/** Checked today, here or on its way to the shop. */
export const checkedToday = (instrument: Instrument | null) => {
  const last = zeroOf(instrument);
  return !!instrument && (waitingFor.value.has(instrument.id) || (!!last && today(last.at)));
};

export function zeroInWords(instrument: Instrument | null): string {
  const last = zeroOf(instrument);
  return last ? words.measure.zero.last(typedLength(last.error), moment(last.at, new Date())) : words.measure.zero.none;
}

/** Asks for the zero of an instrument, and says what came of it. */
export function ZeroCheckField({ instrument }: { instrument: Instrument }) {
  const [text, setText] = useState('');
  const last = zeroOf(instrument);
  const { zero } = words.measure;
  const due = instrument.calibration_due_on;
  const note = (event: Event) => {
    event.preventDefault();
    if (text.trim() === '') return;
    const body = {
      id: newId(),
      instrument_id: instrument.id,
      text: text.trim(),
      default_unit: instrument.default_unit,
      job_id: jobFile.value?.job.id ?? null,
    };
    outbox.put('zero check', null, 'post', '/zero-checks', signed('post', '/zero-checks'), body);
    setText('');
  };
  return (
    <section class="zero" aria-label={`${zero.title}: ${instrument.name}`}>
      <h2>
        {zero.title}, {instrument.name}
      </h2>
      <p class="soft">{zero.ask}</p>
      <form class="zero-line" onSubmit={note}>
        <label>
          <span class="heard">{zero.label}</span>
          <input
            class="digits"
            type="text"
            inputMode="text"
            autocomplete="off"
            data-gauge="own"
            placeholder={instrument.default_unit === 'mm' ? '0.000' : '0.0000'}
            value={text}
            onInput={(event) => setText(event.currentTarget.value)}
          />
        </label>
        <span class="soft">{instrument.default_unit}</span>
        <button type="submit" disabled={text.trim() === ''}>
          {zero.check}
        </button>
      </form>
      <p role="status">
        {last && (
          <>
            {zero.last(typedLength(last.error), moment(last.at, new Date()))}. {!today(last.at) && zero.old}
          </>
        )}
        {!last && waitingFor.value.has(instrument.id) && words.measure.taken.waiting}
      </p>
      {due && Date.parse(due) < Date.now() && <p class="attention">{zero.due(calendarDay(due))}</p>}
    </section>
  );
}
