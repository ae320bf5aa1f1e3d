import { Field } from '../controls/field';
import { wrongWith } from '../controls/saving';
import { Choice } from '../shell/choice';
import { lengthOfMm } from '../show/length';
import { words } from '../words';
import type { LatheDraft, NumberName } from './lathe_draft';
import { numberOf } from './numbers';

interface NumberProps {
  draft: LatheDraft;
  field: NumberName;
  label: string;
  note: string;
}

export function MicrometreField({ draft, field, label, note }: NumberProps) {
  return (
    <Field
      label={label}
      note={note}
      digits
      inputMode="decimal"
      value={draft.texts[field]}
      error={wrongWith(draft.saving.trouble, field) ?? draft.badNumber(field)}
      onInput={draft.type(field)}
      after={<span class="unit">{words.shop.lathes.um}</span>}
    />
  );
}

/** What a mark of each dial is, and what the figures printed beside the marks count. */
export function LatheDial({ draft }: { draft: LatheDraft }) {
  const { lathes } = words.shop;
  const { dials } = lathes;
  return (
    <section class="fields" aria-label={dials.title}>
      <h2>{dials.title}</h2>
      <MicrometreField draft={draft} field="dial_um_per_mark" label={lathes.dial} note={lathes.dial_note} />
      <MicrometreField draft={draft} field="dial_inboard_um_per_mark" label={dials.inboard} note={dials.inboard_note} />
      <Choice
        shown
        label={dials.reads}
        value={draft.dialReads}
        options={(['depth', 'diameter'] as const).map((value) => ({ value, label: dials.reading[value] }))}
        onChange={draft.setDialReads}
      />
      <p class="dial-sentence" role="status">
        {sentence(draft)}
      </p>
    </section>
  );
}

const both = (um: number) => `${um} µm (${lengthOfMm(um / 1000, { unit: 'in', resolution_nm: 2540 })})`;
const doubled = (um: number) => Number((2 * um).toFixed(4));

function sentence(draft: LatheDraft): string {
  const { dials } = words.shop.lathes;
  const outboard = numberOf(draft.texts.dial_um_per_mark);
  if (outboard === null) return '';
  const inboard = numberOf(draft.texts.dial_inboard_um_per_mark) ?? outboard;
  const takes = inboard === outboard ? dials.takes(both(outboard)) : dials.takes_each(both(outboard), both(inboard));
  const printed =
    draft.dialReads === 'depth' ? dials.printed_depth : dials.printed_diameter(both(doubled(outboard)), both(outboard));
  return `${takes} ${printed}`;
}
