import { words } from '../words';

interface UnitProps<U extends string> {
  label: string;
  unit: U;
  other: U;
  onUnit: (unit: U) => void;
}

/** The unit that a number beside it is told in; pressed, it is told in the other. */
export function UnitButton<U extends string>({ label, unit, other, onUnit }: UnitProps<U>) {
  return (
    <button
      type="button"
      class="unit-switch figures"
      aria-label={`${label}: ${words.arrival.unit_switch(unit, other)}`}
      onClick={() => onUnit(other)}
    >
      {unit}
    </button>
  );
}
