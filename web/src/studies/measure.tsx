import { useSignalEffect } from '@preact/signals';
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { NumberKeys } from '../controls/number_keys';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { decimalsFor } from '../show/length';
import { heard, lastChange, outbox } from '../state/connection';
import { instrumentOf, person } from '../state/shop';
import { words } from '../words';
import {
  concerns,
  here,
  isTakenBack,
  keepAsked,
  nameOf,
  openStudy,
  retypeAsked,
  standing,
  switchUnit,
  take,
  takeBack,
  typed,
  unit,
  view,
} from './at_study';
import type { PlaceKey } from './places';
import { listenInStudy } from './study_keys';
import './studies.css';

/** The blind place of one person in a study: which part, where on it, with what, and one large reading. */
export function MeasureInStudy({ id = '' }: { id?: string }) {
  const { trouble, run } = useSaving();
  const me = person.value?.id ?? '';
  const seq = lastChange.value?.seq ?? 0;
  useEffect(() => void run(() => openStudy(id, me)), [id, me, heard.value]);
  useEffect(() => {
    if (concerns(lastChange.value)) void openStudy(id, me).catch(() => undefined);
  }, [seq]);
  const said = words.studies.measure;
  const now = standing.value;
  const study = view.value?.study;
  const toStudies = (
    <a class="button main later" href="/studies">
      {words.studies.all}
    </a>
  );
  if (!now || !study) {
    const text = trouble?.code === 'not_in_study' ? `${said.not_in} ${said.who}` : trouble?.message;
    return (
      <Screen name="study-measure" title={words.studies.title} next={toStudies}>
        <TroubleLine text={text} />
        {trouble ? null : <p class="soft">{words.studies.waiting}</p>}
      </Screen>
    );
  }
  if (!here.value || (study.closed && !now.asked)) {
    return (
      <Screen
        name="study-measure"
        title={study.closed ? study.name : said.done_title}
        next={study.closed ? <ToAnswer id={id} /> : toStudies}
        aside={study.closed || !now.last ? null : <TakeBack />}
      >
        <p class="study-done">{study.closed ? said.closed : said.done(now.of)}</p>
        {now.waiting > 0 ? <p class="state-waiting">{said.done_waiting(now.waiting)}</p> : null}
        {study.closed ? null : <p class="soft">{said.done_then}</p>}
      </Screen>
    );
  }
  return <Place name={study.name} />;
}

const ToAnswer = ({ id }: { id: string }) => (
  <a class="button main" href={`/studies/${id}`}>
    {words.studies.to_answer}
  </a>
);

const TakeBack = ({ disabled = false }: { disabled?: boolean }) => (
  <button type="button" disabled={disabled} onClick={takeBack}>
    {words.studies.measure.back}
  </button>
);

function Place({ name }: { name: string }) {
  const field = useRef<HTMLInputElement>(null);
  const [keypad] = useState(() => window.matchMedia('(any-pointer: coarse)').matches);
  const said = words.studies.measure;
  const now = standing.value;
  const place = here.value;
  const asked = now?.asked ?? null;
  // Before anybody sees the place: no key may come between its drawing and these.
  useLayoutEffect(() => listenInStudy({ page: document, field: () => field.current }), []);
  useLayoutEffect(() => {
    if (!asked) field.current?.focus({ preventScroll: true });
  }, [asked?.entry.id, place?.reference_part_id, place?.repeat]);
  if (!now || !place) return null;
  const names = nameOf(place);
  return (
    <Screen
      name="study-measure"
      title={said.title(name)}
      silentTitle
      aside={<TakeBack disabled={!now.last || asked !== null} />}
      next={
        keypad ? null : (
          <button type="button" class="main" disabled={asked !== null} onClick={() => take(typed.value)}>
            {words.measure.enter}
          </button>
        )
      }
    >
      <div class="blind">
        <div class="blind-head">
          <p class="blind-count soft figures">{said.count(Math.min(now.done + 1, now.of), now.of)}</p>
          <p class="blind-part">{names.part_name}</p>
          <p class="blind-place">{names.place_words}</p>
          <p class="soft">{said.with(names.instrument_name)}</p>
        </div>
        {asked ? <Question /> : <BlindField field={field} place={place} />}
        <p class="blind-says soft" id="blind-says" role="status">
          {asked
            ? ''
            : now.waiting > 0 && !(heard.value && outbox.reached.value)
              ? said.taken_waiting(now.waiting)
              : isTakenBack.value
                ? said.taken_back
                : said.hint}
        </p>
        {keypad && !asked ? (
          <NumberKeys
            field={field}
            typed={typed}
            unit={unit.value}
            onUnit={switchUnit}
            onEmptyDelete={() => undefined}
            onEnter={take}
          />
        ) : null}
        <p class="small soft blind-note">{said.blind}</p>
      </div>
    </Screen>
  );
}

interface FieldProps {
  field: RefObject<HTMLInputElement | null>;
  place: PlaceKey;
}

/** The reading that is being typed, shown at once: no key may fall between two drawings. It comes anew after a question. */
function BlindField({ field, place }: FieldProps) {
  useSignalEffect(() => {
    const shown = typed.value;
    if (field.current && field.current.value !== shown) field.current.value = shown;
  });
  const names = nameOf(place);
  const label = words.studies.measure.reading(names.part_name, names.place_words);
  const decimals = decimalsFor(unit.value, instrumentOf(place.instrument_id)?.resolution_nm ?? 1000);
  return (
    <section class="blind-entry" aria-label={label}>
      <div class="reading-line">
        <input
          ref={field}
          class="reading-digits digits"
          type="text"
          inputMode="none"
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          enterkeyhint="enter"
          aria-label={label}
          aria-describedby="blind-says"
          placeholder={`0${decimals ? `.${'0'.repeat(decimals)}` : ''}`}
          onInput={(event) => {
            typed.value = event.currentTarget.value;
          }}
        />
        <button type="button" class="plain reading-unit" onClick={switchUnit}>
          {unit.value}
          <span class="heard">
            {words.measure.switchTo}
            {unit.value === 'mm' ? 'in' : 'mm'}
          </span>
        </button>
      </div>
    </section>
  );
}

/** A reading that the shop doubts or could not take, asked where it was typed. */
function Question() {
  const section = useRef<HTMLElement>(null);
  const asked = standing.value?.asked ?? null;
  useLayoutEffect(() => section.current?.focus(), [asked?.entry.id]);
  if (!asked) return null;
  const { refusal } = asked.entry;
  const says = refusal?.doubts?.map((doubt) => doubt.message) ?? [refusal?.message ?? ''];
  const { question } = words.measure;
  return (
    <section
      ref={section}
      class="question"
      tabIndex={-1}
      role="alertdialog"
      aria-label={question.title(nameOf(asked.place).part_name, asked.text)}
      aria-describedby="doubts"
    >
      <p class="question-value digits">{question.value(asked.text)}</p>
      <div id="doubts">
        {says.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </div>
      <div class="question-answers">
        {asked.state === 'questioned' ? (
          <button type="button" class="answer" aria-keyshortcuts="K" onClick={keepAsked}>
            <kbd>K</kbd>
            <span>{question.keep}</span>
          </button>
        ) : null}
        <button type="button" class="answer" aria-keyshortcuts="R" onClick={retypeAsked}>
          <kbd>R</kbd>
          <span>{question.retype}</span>
        </button>
      </div>
    </section>
  );
}
