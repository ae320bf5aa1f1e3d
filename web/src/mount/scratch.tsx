import { useRef } from 'preact/hooks';
import type { Lathe } from '../api/schema';
import { Caution } from '../controls/caution';
import { Field } from '../controls/field';
import { LengthField } from '../controls/length_field';
import { wrongWith } from '../controls/saving';
import { numberOf } from '../shop/numbers';
import { lengthOfMm } from '../show/length';
import { words } from '../words';
import type { MarkTexts, ProofDraft } from './proof_draft';
import { ScratchPicture } from './scratch_picture';

interface Props {
  draft: ProofDraft;
  lathe: Lathe | null;
  turning: 'clockwise' | 'anticlockwise';
  onEnter: () => void;
}

/** Two marks that a tool leaves on the turning face, with the rotor turned half a turn on the arbor between them. */
export function Scratch({ draft, lathe, turning, onEnter }: Props) {
  const { proof } = words.mount;
  const { texts } = draft;
  const box = useRef<HTMLDivElement>(null);
  const next = () => {
    const fields = [...(box.current?.querySelectorAll<HTMLInputElement>('input') ?? [])];
    const to = fields[fields.indexOf(document.activeElement as HTMLInputElement) + 1];
    if (to) to.focus();
    else onEnter();
  };
  const drawn = texts.marks.map(({ centre, arc }) => ({ centre_deg: numberOf(centre), arc_deg: numberOf(arc) }));
  return (
    <div class="scratch" ref={box}>
      <ScratchPicture marks={drawn} turning={turning} />
      <div class="fields">
        <ol class="scratch-steps">
          {proof.scratch_lead.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ol>
        <Caution title={words.mount.stack.caution_title}>
          <p>{proof.scratch_caution}</p>
        </Caution>
        {([0, 1] as const).map((at) => (
          <Mark key={at} {...{ draft, lathe, at }} onEnter={next} />
        ))}
      </div>
    </div>
  );
}

const badAngle = (text: string): boolean => {
  const value = numberOf(text);
  return text.trim() !== '' && (value === null || value < 0 || value > 360);
};

function Mark({ draft, lathe, onEnter, at }: Omit<Props, 'turning'> & { at: 0 | 1 }) {
  const { proof } = words.mount;
  const { texts, change } = draft;
  const mark = texts.marks[at];
  const set = (part: Partial<MarkTexts>) => {
    change(({ marks: [first, second] }) => ({
      marks: at === 0 ? [{ ...first, ...part }, second] : [first, { ...second, ...part }],
    }));
  };
  const refused = (field: string) =>
    draft.wrong?.field.includes(`marks[${at}]`) ? wrongWith(draft.wrong, field) : undefined;
  const dial = lengthOfMm((lathe?.dial_um_per_mark ?? 25.4) / 1000, { unit: texts.unit, resolution_nm: 100 });
  const angle = (name: 'centre' | 'arc', field: string) => (
    <Field
      label={proof[name]}
      digits
      inputMode="decimal"
      value={mark[name]}
      error={badAngle(mark[name]) ? proof.bad_angle : refused(field)}
      onInput={(text) => set({ [name]: text })}
      onEnter={onEnter}
      after={<span class="unit">{proof.deg}</span>}
    />
  );
  return (
    <fieldset class="scratch-mark" aria-label={proof.mark[at]}>
      <h3>{proof.mark[at]}</h3>
      <div class="scratch-fields">
        {angle('centre', 'centre_deg')}
        {angle('arc', 'arc_deg')}
        <LengthField
          label={proof.infeed}
          note={lathe ? proof.infeed_note(dial) : undefined}
          value={mark.infeed}
          unit={texts.unit}
          error={refused('infeed_um')}
          onInput={(infeed) => set({ infeed })}
          onUnit={(unit) => change({ unit })}
          onEnter={onEnter}
        />
      </div>
    </fieldset>
  );
}
