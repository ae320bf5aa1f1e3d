import type { RefObject } from 'preact';
import { NumberKeys } from '../controls/number_keys';
import { switchUnit, tab, take, typed, undo, unit } from './at_bench';

/** The keys of the bench: what they type is the reading of the lit point. */
export function Keypad({ field }: { field: RefObject<HTMLInputElement | null> }) {
  return (
    <NumberKeys
      field={field}
      typed={typed}
      unit={unit.value}
      unitFixed={tab.value.name === 'roughness'}
      onUnit={switchUnit}
      onEmptyDelete={undo}
      onEnter={take}
    />
  );
}
