import { useId, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { words } from '../words';

/** A PIN under keys of its own, or a password. Enter sends, as the form's button does. */
export interface SecretFieldProps {
  kind: 'pin' | 'password';
  label: string;
  value: string;
  onInput: (text: string) => void;
  error?: string | undefined;
  note?: string | undefined;
  /** Nothing can be typed, as while one has to wait. */
  disabled?: boolean;
  /** Whether it is chosen now: then the browser offers no old one. */
  fresh?: boolean;
  focused?: boolean;
}

const MOST = { pin: 8, password: 200 };

export function SecretField(props: SecretFieldProps) {
  const { kind, label, value, error, note, disabled = false } = props;
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const [shown, setShown] = useState(false);
  useLayoutEffect(() => {
    if (props.focused && !disabled) input.current?.focus({ preventScroll: true });
  }, [disabled, label]);
  const typed = (text: string) => props.onInput(kind === 'pin' ? text.replace(/[^0-9]/g, '') : text);
  const described = [error ? `${id}error` : '', note ? `${id}note` : ''].filter(Boolean).join(' ');
  return (
    <div class={`field${error ? ' field-wrong' : ''}`}>
      <label class="field-label" for={id}>
        {label}
      </label>
      <div class="field-line">
        <input
          ref={input}
          id={id}
          class={kind === 'pin' ? 'pin figures' : ''}
          {...(shown ? { type: 'text' as const } : { type: 'password' as const })}
          inputMode={kind === 'pin' ? 'none' : 'text'}
          autoComplete={props.fresh ? 'new-password' : kind === 'pin' ? 'off' : 'current-password'}
          maxLength={MOST[kind]}
          value={value}
          disabled={disabled}
          aria-invalid={error ? true : undefined}
          aria-describedby={described || undefined}
          onInput={(event) => {
            typed(event.currentTarget.value);
            event.currentTarget.value =
              kind === 'pin' ? event.currentTarget.value.replace(/[^0-9]/g, '') : event.currentTarget.value;
          }}
        />
        {kind === 'password' ? (
          <button type="button" class="plain" aria-pressed={shown} onClick={() => setShown(!shown)}>
            {shown ? words.door.hide : words.door.show}
          </button>
        ) : null}
      </div>
      {error ? (
        <p class="field-error" id={`${id}error`} role="alert">
          {error}
        </p>
      ) : null}
      {note ? (
        <p class="field-note small soft" id={`${id}note`}>
          {note}
        </p>
      ) : null}
      {kind === 'pin' ? (
        <PinPad
          value={value}
          disabled={disabled}
          onInput={(text) => {
            props.onInput(text);
            input.current?.focus({ preventScroll: true });
          }}
        />
      ) : null}
    </div>
  );
}

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'];

function PinPad({ value, disabled, onInput }: { value: string; disabled: boolean; onInput: (text: string) => void }) {
  const add = (digit: string) => onInput((value + digit).slice(0, MOST.pin));
  const key = (digit: string) => (
    <button key={digit} type="button" class="digits" disabled={disabled} onClick={() => add(digit)}>
      {digit}
    </button>
  );
  return (
    <fieldset class="pin-pad">
      <legend class="heard">{words.door.pin_pad}</legend>
      {DIGITS.map(key)}
      <span />
      {key('0')}
      <button
        type="button"
        disabled={disabled || value === ''}
        aria-label={words.door.back}
        onClick={() => onInput(value.slice(0, -1))}
      >
        ‹
      </button>
    </fieldset>
  );
}
