import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { FeltIn } from '../api/schema';
import { Field } from '../controls/field';
import { wrongWith } from '../controls/saving';
import { Choice } from '../shell/choice';
import { stepAddress } from '../shell/step_path';
import { jobFile } from '../state/job';
import { words } from '../words';
import type { BlockProps } from './blocks';
import { type DraftFault, tellsFelt } from './draft';
import { TyreField } from './tyre_field';
import { UnitButton } from './unit_button';

const FELT_IN: readonly FeltIn[] = ['pedal', 'steering_wheel', 'seat', 'body'];

/** What the driver feels on the road: open where something pulsates, a line to open otherwise. */
export function Felt({ draft, change, faults, trouble, opened, detective, onEnter }: BlockProps) {
  const { felt, needed } = words.arrival;
  const wrong = (field: DraftFault) => (faults.includes(field) ? needed[field] : wrongWith(trouble, field));
  return (
    <Folded title={felt.title} wanted={draft.complaint === 'pulsation' || tellsFelt(draft)}>
      <Choice
        shown
        label={felt.in}
        value={draft.felt_in}
        options={[
          ...FELT_IN.map((value) => ({ value, label: words.trade.feltIn[value] })),
          { value: '' as const, label: felt.not_told },
        ]}
        onChange={(felt_in) => change({ felt_in })}
      />
      <Field
        label={felt.speed}
        note={felt.speed_note}
        digits
        inputMode="decimal"
        value={draft.felt_speed}
        error={wrong('felt_speed_km_per_h')}
        onInput={(felt_speed) => change({ felt_speed })}
        onEnter={onEnter}
        after={
          <UnitButton
            label={felt.speed}
            unit={draft.speed_unit}
            other={draft.speed_unit === 'mph' ? 'km/h' : 'mph'}
            onUnit={(speed_unit) => change({ speed_unit })}
          />
        }
      />
      <Field
        label={felt.frequency}
        note={felt.frequency_note}
        digits
        inputMode="decimal"
        value={draft.felt_frequency}
        error={wrong('felt_frequency_hz')}
        onInput={(felt_frequency) => change({ felt_frequency })}
        onEnter={onEnter}
      />
      {opened ? (
        <p>
          {detective ? (
            <button type="button" onClick={detective}>
              {words.detective.open}
            </button>
          ) : (
            <a class="button" href={stepAddress(jobFile.value?.job.number, 'detective')}>
              {words.detective.open}
            </a>
          )}
        </p>
      ) : null}
    </Folded>
  );
}

/** How far the vehicle rolls in a turn of its wheel, and what its brakes have to stop. */
export function Rolling({ draft, change, faults, trouble, onEnter }: BlockProps) {
  const { rolling, needed } = words.arrival;
  const told = draft.tyre.trim() !== '' || draft.mass.trim() !== '';
  return (
    <Folded title={rolling.title} wanted={draft.complaint === 'pulsation' || told}>
      <TyreField
        value={draft.tyre}
        error={wrongWith(trouble, 'tyre')}
        onInput={(tyre) => change({ tyre })}
        onEnter={onEnter}
      />
      <Field
        label={rolling.mass}
        note={rolling.mass_note}
        digits
        inputMode="decimal"
        value={draft.mass}
        error={faults.includes('vehicle_mass_kg') ? needed.vehicle_mass_kg : wrongWith(trouble, 'vehicle_mass_kg')}
        onInput={(mass) => change({ mass })}
        onEnter={onEnter}
        after={
          <UnitButton
            label={rolling.mass}
            unit={draft.mass_unit}
            other={draft.mass_unit === 'lb' ? 'kg' : 'lb'}
            onUnit={(mass_unit) => change({ mass_unit })}
          />
        }
      />
    </Folded>
  );
}

/** Folded away until it is wanted or somebody opens it; what somebody opened or closed stays so. */
function Folded({ title, wanted, children }: { title: string; wanted: boolean; children: ComponentChildren }) {
  const [opened, setOpened] = useState<boolean | null>(null);
  const open = opened ?? wanted;
  return (
    <details
      class="opens"
      open={open}
      onToggle={({ currentTarget }) => {
        if (currentTarget.open !== open) setOpened(currentTarget.open);
      }}
    >
      <summary>{title}</summary>
      <div class="opens-inner">{children}</div>
    </details>
  );
}
