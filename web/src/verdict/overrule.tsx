import { useState } from 'preact/hooks';
import type { Action, Part } from '../api/schema';
import { Field } from '../controls/field';
import type { Trouble } from '../controls/saving';
import { ActionMark } from '../pictures/action_mark';
import { Drawer } from '../shell/drawer';
import { person } from '../state/shop';
import { words } from '../words';

interface Props {
  computed: Action;
  /** Rotors at or under discard: while there is one, nobody may choose to cut. */
  scrap: readonly Part[];
  busy: boolean;
  trouble: Trouble | null;
  onDecide: (action: Action, reason: string) => void;
  onClose: () => void;
}

const ACTIONS: readonly Action[] = ['leave', 'cut', 'replace', 'measure_again'];

/** A decision that differs from what was computed: with a reason and a name, and both are kept. */
export function Overrule({ computed, scrap, busy, trouble, onDecide, onClose }: Props) {
  const [action, setAction] = useState<Action | null>(null);
  const [reason, setReason] = useState('');
  const [asked, setAsked] = useState(false);
  const { verdict } = words;
  const lacks = reason.trim() === '';
  const decide = () => {
    if (lacks || !action) setAsked(true);
    else onDecide(action, reason.trim());
  };
  return (
    <Drawer title={verdict.otherwise_title} onClose={onClose}>
      <p>{verdict.otherwise_lead}</p>
      <fieldset class="actions" aria-label={verdict.otherwise_title}>
        {ACTIONS.filter((one) => one !== computed).map((one) => (
          <button
            key={one}
            type="button"
            aria-pressed={action === one}
            disabled={one === 'cut' && scrap.length > 0}
            onClick={() => setAction(one)}
          >
            <ActionMark action={one} size={32} />
            {verdict.actions[one]}
          </button>
        ))}
      </fieldset>
      {scrap.length > 0 ? (
        <p class="doubt">
          {verdict.no_cut} {scrap.map((part) => verdict.rotor[part.side].toLowerCase()).join(', ')}.{' '}
          {verdict.no_cut_below}
        </p>
      ) : null}
      <Field
        label={verdict.reason}
        lines={3}
        value={reason}
        error={asked && lacks ? verdict.reason_needed : trouble?.message}
        onInput={setReason}
      />
      <p class="soft">{verdict.accept_as(person.value?.name ?? '')}</p>
      <button type="button" class="main" disabled={busy || !action} onClick={decide}>
        {verdict.record}
      </button>
    </Drawer>
  );
}
