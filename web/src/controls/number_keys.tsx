import type { Signal } from '@preact/signals';
import type { RefObject } from 'preact';
import type { Unit } from '../api/schema';
import { words } from '../words';

interface Props {
  field: RefObject<HTMLInputElement | null>;
  typed: Signal<string>;
  unit: Unit;
  /** The matter has one unit only. */
  unitFixed?: boolean;
  onUnit: () => void;
  /** Deleting where nothing is typed. */
  onEmptyDelete: () => void;
  onEnter: (text: string) => void;
}

/** Keys for a finger or a glove; the tablet's own keyboard stays away and covers nothing. */
const DIGITS = ['7', '8', '9', '4', '5', '6', '1', '2', '3'];

export function NumberKeys({ field, typed, unit, unitFixed = false, onUnit, onEmptyDelete, onEnter }: Props) {
  const press = (act: () => void) => (event: Event) => {
    event.preventDefault();
    act();
    field.current?.focus({ preventScroll: true });
  };
  const add = (text: string) =>
    press(() => {
      typed.value += text;
    });
  const sign = press(() => {
    typed.value = typed.value.startsWith('-') ? typed.value.slice(1) : `-${typed.value}`;
  });
  const back = press(() => {
    if (typed.value === '') onEmptyDelete();
    else typed.value = typed.value.slice(0, -1);
  });
  return (
    <fieldset class="keypad">
      <legend class="heard">{words.measure.keypad}</legend>
      {DIGITS.map((digit) => (
        <button key={digit} type="button" class="digits" onClick={add(digit)} style={{ gridArea: `d${digit}` }}>
          {digit}
        </button>
      ))}
      <button type="button" class="digits" onClick={add('0')} style={{ gridArea: 'd0' }}>
        0
      </button>
      <button
        type="button"
        class="digits"
        onClick={add('.')}
        style={{ gridArea: 'dot' }}
        aria-label={words.measure.pointKey}
      >
        .
      </button>
      <button type="button" class="digits" onClick={sign} style={{ gridArea: 'sign' }} aria-label={words.measure.sign}>
        ±
      </button>
      <button type="button" onClick={press(onUnit)} style={{ gridArea: 'unit' }} disabled={unitFixed}>
        {unit}
        <span class="heard">{words.measure.switchTo}</span>
        <span class="soft small">{unit === 'mm' ? 'in' : 'mm'}</span>
      </button>
      <button type="button" onClick={back} style={{ gridArea: 'back' }} aria-label={words.measure.clear}>
        <svg
          viewBox="0 0 28 20"
          width="28"
          height="20"
          aria-hidden="true"
          fill="none"
          stroke="currentColor"
          stroke-width="2"
        >
          <path d="M9 2h17v16H9L2 10zM13 6.5l7 7M20 6.5l-7 7" />
        </svg>
      </button>
      <button
        type="button"
        class="keypad-enter"
        onClick={press(() => onEnter(typed.value))}
        style={{ gridArea: 'enter' }}
        disabled={typed.value === ''}
      >
        {words.measure.enter}
      </button>
    </fieldset>
  );
}
