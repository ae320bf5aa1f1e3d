import { useState } from 'preact/hooks';
import type { Finding, FindingKind } from '../api/schema';
import { Field } from '../controls/field';
import type { Trouble } from '../controls/saving';
import { Choice } from '../shell/choice';
import { Drawer } from '../shell/drawer';
import { words } from '../words';

interface Props {
  kind: FindingKind;
  busy: boolean;
  trouble: Trouble | null;
  onKeep: (judgement: Finding['judgement'], note: string) => void;
  onClose: () => void;
}

/** Findings that the trade agrees to reject start so; for the others the hand has to choose. Common practice, no source. */
const AGREED: readonly FindingKind[] = ['crack', 'broken_fin', 'loose_hat'];

/** One finding: what the trade makes of it, what this teacher makes of it, and where it is. */
export function FindingSheet({ kind, busy, trouble, onKeep, onClose }: Props) {
  const [judgement, setJudgement] = useState<Finding['judgement']>(AGREED.includes(kind) ? 'reject' : 'noted');
  const [note, setNote] = useState('');
  const [asked, setAsked] = useState(false);
  const { look } = words;
  const lacks = kind === 'other' && note.trim() === '';
  const keep = () => {
    if (lacks) setAsked(true);
    else onKeep(judgement, note.trim());
  };
  return (
    <Drawer title={look.kinds[kind][0]} onClose={onClose}>
      <p>
        {look.practices[kind]} <span class="small soft">{look.practice_source}</span>
      </p>
      <Choice
        label={look.kinds[kind][0]}
        value={judgement}
        options={(['noted', 'reject'] as const).map((value) => ({ value, label: look.judgement[value] }))}
        onChange={setJudgement}
      />
      <p class="soft">{look.judgement_means[judgement]}</p>
      <Field
        label={look.note}
        hint={look.note_hint}
        value={note}
        error={asked && lacks ? look.note_needed : trouble?.message}
        onInput={setNote}
        onEnter={keep}
      />
      <button type="button" class="main" disabled={busy} onClick={keep}>
        {look.keep}
      </button>
    </Drawer>
  );
}
