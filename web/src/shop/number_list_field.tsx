import { Field } from '../controls/field';
import { words } from '../words';
import { numberList } from './numbers';

interface Props {
  label: string;
  hint: string;
  note?: string;
  value: string;
  error?: string | undefined;
  onInput: (text: string) => void;
  /** A value with its unit, as the chip says it. */
  show: (value: number) => string;
}

/** Several numbers typed in one line, and read back as chips; a chip takes its number out. */
export function NumberListField({ label, hint, note, value, error, onInput, show }: Props) {
  const { values, wrong } = numberList(value);
  const without = (gone: number) => onInput(values.filter((one) => one !== gone).join(' '));
  return (
    <div class="number-list">
      <Field
        label={label}
        hint={hint}
        note={note}
        digits
        inputMode="text"
        value={value}
        error={error ?? (wrong.length > 0 ? words.shop.lathes.no_number(wrong.join(', ')) : undefined)}
        onInput={onInput}
      />
      {values.length > 0 ? (
        <ul class="chips" aria-label={label}>
          {values.map((one) => (
            <li key={one}>
              <button
                type="button"
                class="chip"
                aria-label={words.shop.lathes.take_out(show(one))}
                onClick={() => without(one)}
              >
                <span class="figures">{show(one)}</span> <span aria-hidden="true">×</span>
              </button>
            </li>
          ))}
        </ul>
      ) : null}
    </div>
  );
}
