import type { ComponentChildren } from 'preact';
import { useId, useLayoutEffect, useRef } from 'preact/hooks';

/** A label over one line of text, with what it is for and what was wrong with it. */
export interface FieldProps {
  label: string;
  value: string;
  onInput: (text: string) => void;
  hint?: string | undefined;
  note?: ComponentChildren;
  /** What was wrong, beside the field that it is about. */
  error?: string | undefined;
  inputMode?: 'text' | 'decimal' | 'numeric' | 'search';
  maxLength?: number;
  lines?: number;
  digits?: boolean;
  onEnter?: (() => void) | undefined;
  /** Takes the focus when it appears. */
  focused?: boolean;
  after?: ComponentChildren;
  name?: string;
}

export function Field(props: FieldProps) {
  const { label, value, onInput, hint, note, error, lines = 1, digits = false, onEnter, after } = props;
  const id = useId();
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (props.focused) box.current?.querySelector<HTMLElement>('input, textarea')?.focus();
  }, []);
  const described = [error ? `${id}error` : '', note ? `${id}note` : ''].filter(Boolean).join(' ');
  const shared = {
    id,
    value,
    name: props.name,
    maxLength: props.maxLength ?? 200,
    placeholder: hint,
    autoComplete: 'off',
    spellcheck: false,
    'aria-invalid': error ? true : undefined,
    'aria-describedby': described || undefined,
  };
  return (
    <div ref={box} class={`field${error ? ' field-wrong' : ''}`}>
      <label class="field-label" for={id}>
        {label}
      </label>
      <div class="field-line">
        {lines > 1 ? (
          <textarea
            {...shared}
            rows={lines}
            maxLength={props.maxLength ?? 2000}
            onInput={(e) => onInput(e.currentTarget.value)}
          />
        ) : (
          <input
            {...shared}
            class={digits ? 'figures' : ''}
            type="text"
            inputMode={props.inputMode ?? 'text'}
            onInput={(e) => onInput(e.currentTarget.value)}
            onKeyDown={(e) => {
              if (e.key !== 'Enter' || !onEnter) return;
              e.preventDefault();
              onEnter();
            }}
          />
        )}
        {after}
      </div>
      {error ? (
        <p class="field-error" id={`${id}error`} role="alert">
          {error}
        </p>
      ) : null}
      {note ? (
        <div class="field-note small soft" id={`${id}note`}>
          {note}
        </div>
      ) : null}
    </div>
  );
}
