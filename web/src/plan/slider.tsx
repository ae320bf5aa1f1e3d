import { useRef, useState } from 'preact/hooks';

interface Props {
  label: string;
  /** Said for the value, as "3 marks". */
  text: string;
  values: readonly number[];
  value: number;
  disabled?: boolean;
  onChange: (value: number) => void;
}

/** Steps of a key; null for a key that is none of the slider's. */
export function steppedBy(key: string, at: number, last: number): number | null {
  const to: Record<string, number> = {
    ArrowRight: at + 1,
    ArrowUp: at + 1,
    ArrowLeft: at - 1,
    ArrowDown: at - 1,
    PageUp: at + 3,
    PageDown: at - 3,
    Home: 0,
    End: last,
  };
  const next = to[key];
  return next === undefined ? null : Math.min(Math.max(next, 0), last);
}

/**
 * One of a row of values: dragged, tapped, or stepped with the arrow keys. While a finger is on it the row stays as it
 * was when it was touched, so that a row that grows with its value does not run away under the finger.
 */
export function SteppedSlider({ label, text, values: offered, value, disabled = false, onChange }: Props) {
  const track = useRef<HTMLDivElement>(null);
  const [touched, setTouched] = useState<readonly number[] | null>(null);
  const values = touched ?? offered;
  const last = values.length - 1;
  const at = Math.max(0, values.indexOf(value));
  const share = last > 0 ? at / last : 0;
  const take = (index: number) => {
    const next = values[index];
    if (next !== undefined && next !== value) onChange(next);
  };
  const follow = (event: PointerEvent) => {
    const box = track.current?.getBoundingClientRect();
    if (!box || box.width === 0) return;
    take(Math.round(Math.min(Math.max((event.clientX - box.left) / box.width, 0), 1) * last));
  };
  return (
    <div
      class="stepped"
      role="slider"
      tabIndex={disabled ? -1 : 0}
      aria-label={label}
      aria-valuemin={values[0] ?? 0}
      aria-valuemax={values[last] ?? 0}
      aria-valuenow={value}
      aria-valuetext={text}
      aria-disabled={disabled}
      onKeyDown={(event) => {
        const index = disabled ? null : steppedBy(event.key, at, last);
        if (index === null) return;
        event.preventDefault();
        take(index);
      }}
      onPointerDown={(event) => {
        if (disabled || event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        setTouched(values);
        follow(event);
      }}
      onLostPointerCapture={() => setTouched(null)}
      onPointerMove={(event) => {
        if (event.currentTarget.hasPointerCapture(event.pointerId)) follow(event);
      }}
    >
      <div class="stepped-track" ref={track}>
        <div class="stepped-fill" style={{ width: `${100 * share}%` }} />
        {values.length <= 14
          ? values.map((one, i) => (
              <i key={one} class="stepped-tick" style={{ left: `${(100 * i) / Math.max(1, last)}%` }} />
            ))
          : null}
        <div class="stepped-handle" style={{ left: `${100 * share}%` }} />
      </div>
    </div>
  );
}
