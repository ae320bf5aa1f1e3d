import { words } from '../words';

/** A number that is stepped up and down with a thumb. */
export interface StepperProps {
  label: string;
  value: number;
  show: (value: number) => string;
  step: number;
  least: number;
  most: number;
  onChange: (value: number) => void;
}

export function Stepper({ label, value, show, step, least, most, onChange }: StepperProps) {
  const to = (next: number) => onChange(Math.min(Math.max(next, least), most));
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset's legend cannot stand in line with the rest
    <div class="stepper" role="group" aria-label={label}>
      <span class="stepper-label soft">{label}</span>
      <button
        type="button"
        onClick={() => to(value - step)}
        disabled={value <= least}
        aria-label={words.measure.setup.lower(label)}
      >
        −
      </button>
      <output class="stepper-value">{show(value)}</output>
      <button
        type="button"
        onClick={() => to(value + step)}
        disabled={value >= most}
        aria-label={words.measure.setup.higher(label)}
      >
        +
      </button>
    </div>
  );
}
