import { useSignalEffect } from '@preact/signals';
import type { RefObject } from 'preact';
import { angle, decimalsFor } from '../show/length';
import { moment } from '../show/time';
import { sealed } from '../state/job';
import { personName } from '../state/shop';
import { words } from '../words';
import {
  active,
  atActive,
  circles,
  how,
  lastShown,
  moveBy,
  replacing,
  slots,
  spread,
  tab,
  typed,
  undo,
  undoable,
  unitWord,
} from './at_bench';
import type { Slot } from './slots';
import { angleOfPoint } from './slots';

/** Where the next reading belongs, in words. */
export function whereOf(slot: Slot): string {
  if (!tab.value.round) return words.trade.quantity[slot.quantity];
  const point = words.measure.point(slot.point + 1, spread.value.points);
  return circles.value > 1 ? `${point}, ${words.measure.circle(slot.circle, circles.value)}` : point;
}

/** Shows at once what was typed, before the screen is drawn again: no key may fall between two drawings. */
function useMirror(field: RefObject<HTMLInputElement | null>) {
  useSignalEffect(() => {
    const shown = typed.value;
    if (field.current && field.current.value !== shown) field.current.value = shown;
  });
}

/** The reading that is being typed, as the largest thing there is; before a digit is typed, the one taken last. */
export function ReadingField({ field }: { field: RefObject<HTMLInputElement | null> }) {
  useMirror(field);
  const slot = active.value;
  const last = lastShown.value;
  const empty = `0${decimalsFor(how.value.unit, how.value.resolution_nm) ? `.${'0'.repeat(decimalsFor(how.value.unit, how.value.resolution_nm))}` : ''}`;
  const lastDigits = last?.text.replace(/\s*[a-zµ"]+\.?$/i, '');
  const where = slot ? whereOf(slot) : '';
  return (
    <section class="reading" aria-label={words.measure.readingFor(where)}>
      <Where slot={slot} />
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
          aria-label={words.measure.readingFor(where || words.measure.tab[tab.value.name])}
          aria-describedby="reading-last"
          placeholder={lastDigits ?? empty}
          data-held={last && typed.value === '' ? 'yes' : 'no'}
          disabled={sealed.value}
          onInput={(event) => {
            typed.value = event.currentTarget.value;
          }}
        />
        <span class="reading-unit">{unitWord.value}</span>
      </div>
      {atActive.value.length > 0 && <HasReading />}
    </section>
  );
}

function Where({ slot }: { slot: Slot | null }) {
  if (!slot) {
    return (
      <div class="reading-where">
        <p class="reading-place">{words.measure.allRead(words.measure.tab[tab.value.name])}</p>
        <p class="soft">{words.measure.pickToRepeat}</p>
      </div>
    );
  }
  const [place, circle] = tab.value.round ? whereOf(slot).split(', ') : [whereOf(slot), ''];
  const degrees = angle(angleOfPoint(slot.point, spread.value));
  return (
    <div class="reading-where">
      <p class="reading-place">{place}</p>
      <p class="soft reading-angle">
        {tab.value.round ? [circle, words.measure.degrees(degrees)].filter(Boolean).join(', ') : circle}
      </p>
      {slots.value.length > 1 && (
        <span class="reading-steps">
          <button type="button" class="plain" aria-label={words.measure.back} onClick={() => moveBy(-1)}>
            ‹
          </button>
          <button type="button" class="plain" aria-label={words.measure.on} onClick={() => moveBy(1)}>
            ›
          </button>
        </span>
      )}
    </div>
  );
}

/** What became of the last reading, and the way to take it back. */
export function LastReading() {
  const last = lastShown.value;
  const back = undoable.value;
  return (
    <div class="reading-last">
      <p id="reading-last" role="status">
        {last ? (
          <>
            {tab.value.round ? words.measure.pointAlone(last.slot.point + 1) : words.trade.quantity[last.slot.quantity]}{' '}
            <span class="digits">{last.text}</span> <StateMark state={last.state} />
          </>
        ) : (
          <span class="soft">{words.measure.type}</span>
        )}
      </p>
      {back && (
        <button type="button" aria-label={words.measure.undoWhat(back.text)} onClick={undo}>
          {words.measure.undo}
        </button>
      )}
    </div>
  );
}

export function StateMark({ state }: { state: 'saved' | 'waiting' | 'questioned' | 'refused' }) {
  const shape = { saved: '✓', waiting: '◌', questioned: '?', refused: '×' }[state];
  return (
    <span class={`state state-${state}`}>
      <span aria-hidden="true">{shape}</span> {words.measure.taken[state]}
    </span>
  );
}

/** The lit point has a reading: will the next one replace it, or stand beside it. */
function HasReading() {
  const there = atActive.value.at(-1);
  if (!there) return null;
  const now = there.taken_at ? moment(there.taken_at, new Date()) : '';
  return (
    <div class="has-reading">
      <p class="small">{words.measure.has(there.text, personName(there.by_person_id), now)}</p>
      <fieldset class="row">
        <legend class="small soft">{words.measure.nextReading}</legend>
        <button
          type="button"
          aria-pressed={replacing.value}
          onClick={() => {
            replacing.value = true;
          }}
        >
          {words.measure.replace}
        </button>
        <button
          type="button"
          aria-pressed={!replacing.value}
          onClick={() => {
            replacing.value = false;
          }}
        >
          {words.measure.repeat}
        </button>
      </fieldset>
    </div>
  );
}
