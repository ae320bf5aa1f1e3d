import { Field } from '../controls/field';
import { type Trouble, wrongWith } from '../controls/saving';
import { lengthOfMm } from '../show/length';
import { words } from '../words';
import { type CuttingBasis, type CuttingNumber, type CuttingTexts, readCutting } from './cutting_texts';
import { numberOf } from './numbers';

interface Props {
  texts: CuttingTexts;
  trouble: Trouble | null;
  onType: (name: keyof CuttingTexts, text: string) => void;
}

/** What the shop goes by when it turns, each group with what it rests on. */
export function CuttingFields(props: Props) {
  const { cutting } = words.shop.rules;
  return (
    <>
      <section class="fields" aria-label={cutting.title}>
        <h2>{cutting.title}</h2>
        <p class="soft">{cutting.lead}</p>
        <Numbered {...props} name="rough_max_um" length />
        <Numbered {...props} name="finish_min_um" length />
        <Numbered {...props} name="finish_max_um" length />
        <Basis {...props} name="depth_basis" />
      </section>
      <section class="fields" aria-label={cutting.finish_title}>
        <h2>{cutting.finish_title}</h2>
        <Numbered {...props} name="ra_target_um" />
        <Numbered {...props} name="ra_factor" bare />
        <Basis {...props} name="ra_basis" />
      </section>
      <section class="fields" aria-label={cutting.mount_title}>
        <h2>{cutting.mount_title}</h2>
        <Numbered {...props} name="mount_runout_max_um" length />
        <Basis {...props} name="mount_basis" />
      </section>
    </>
  );
}

interface NumberedProps extends Props {
  name: CuttingNumber;
  /** A depth or a swing: read back in inches as well. */
  length?: boolean;
  /** A plain number, without a unit. */
  bare?: boolean;
}

function Numbered({ texts, trouble, onType, name, length = false, bare = false }: NumberedProps) {
  const { cutting } = words.shop.rules;
  const wrong = readCutting(texts).wrong[name];
  const um = numberOf(texts[name]);
  const read =
    um === null
      ? ''
      : length
        ? `${um} µm = ${lengthOfMm(um / 1000, { unit: 'in', resolution_nm: 2540 })}. `
        : bare
          ? ''
          : `${um} µm = ${Math.round((um * 1000) / 25.4)} µin. `;
  return (
    <Field
      label={cutting.names[name]}
      note={`${read}${cutting.notes[name]}`}
      digits
      inputMode="decimal"
      value={texts[name]}
      error={(wrong ? cutting.wrong[wrong] : undefined) ?? wrongWith(trouble, name)}
      onInput={(text) => onType(name, text)}
      after={bare ? null : <span class="unit">µm</span>}
    />
  );
}

function Basis({ texts, trouble, onType, name }: Props & { name: CuttingBasis }) {
  const { cutting } = words.shop.rules;
  const wrong = readCutting(texts).wrong[name];
  return (
    <Field
      label={cutting.names[name]}
      note={cutting.basis_note}
      value={texts[name]}
      error={(wrong ? cutting.wrong[wrong] : undefined) ?? wrongWith(trouble, name)}
      onInput={(text) => onType(name, text)}
    />
  );
}
