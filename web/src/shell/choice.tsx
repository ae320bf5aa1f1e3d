/** One of a few, side by side: tabs of a screen or a setting. Arrows choose, as in any group of radio buttons. */
export interface ChoiceProps<T extends string> {
  label: string;
  options: readonly { value: T; label: string; note?: string; disabled?: boolean }[];
  value: T;
  onChange: (value: T) => void;
  /** The label is also seen. */
  shown?: boolean;
  /** Of what acts at once: arrows only move, and Enter or the space bar chooses, so that nothing acts on the way past. */
  pressed?: boolean;
}

export function Choice<T extends string>({
  label,
  options,
  value,
  onChange,
  shown = false,
  pressed = false,
}: ChoiceProps<T>) {
  const open = options.filter((one) => !one.disabled);
  const entered = open.some((one) => one.value === value) ? value : open[0]?.value;
  const move = (event: KeyboardEvent) => {
    const by = event.key === 'ArrowRight' || event.key === 'ArrowDown' ? 1 : event.key.startsWith('Arrow') ? -1 : 0;
    if (by === 0 || !(event.currentTarget instanceof HTMLElement)) return;
    event.preventDefault();
    event.stopPropagation();
    const buttons = [...event.currentTarget.querySelectorAll<HTMLElement>('[role="radio"]')];
    const here = pressed ? options[buttons.indexOf(event.target as HTMLElement)]?.value : value;
    const at = open.findIndex((one) => one.value === here);
    const next = open[(at + by + open.length) % open.length];
    if (!next) return;
    if (!pressed) onChange(next.value);
    buttons[options.indexOf(next)]?.focus();
  };
  return (
    <div class="choice">
      {shown && <span class="choice-label soft">{label}</span>}
      <div class="choice-options" role="radiogroup" aria-label={label} onKeyDown={move}>
        {options.map((one) => (
          // biome-ignore lint/a11y/useSemanticElements: a button keeps the 44 px and takes a tap with a glove
          <button
            key={one.value}
            type="button"
            role="radio"
            aria-checked={one.value === value}
            tabIndex={one.value === entered ? 0 : -1}
            disabled={one.disabled}
            onClick={() => onChange(one.value)}
          >
            {one.label}
            {one.note && <span class="small soft digits">{one.note}</span>}
          </button>
        ))}
      </div>
    </div>
  );
}
