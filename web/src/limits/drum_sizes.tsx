import { useState } from 'preact/hooks';
import type { Part, TypedLength, Unit } from '../api/schema';
import { Field } from '../controls/field';
import { LengthField, typed } from '../controls/length_field';
import { wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import type { Editing } from './editing';

const LENGTHS = ['band_width', 'lining_radius'] as const;
type Name = (typeof LENGTHS)[number];
const PLAUSIBLE_MM: Record<Name, [number, number]> = { band_width: [10, 300], lining_radius: [40, 750] };
const ARC = { least: 10, most: 170 };

/** Whole or broken degrees within the range, null for nothing, NaN for what is none. */
function arcOf(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace(/°$/, '');
  if (plain === '') return null;
  const degrees = /^[0-9]{1,3}(\.[0-9]+)?$/.test(plain) ? Number(plain) : Number.NaN;
  return degrees >= ARC.least && degrees <= ARC.most ? degrees : Number.NaN;
}

/** What of a drum and its shoe the time of a pass and the drawing of the lining go by. */
export function DrumSizes({ part, editing }: { part: Part; editing: Editing }) {
  const { sizes } = words.limits;
  const start = shop.value?.settings.default_unit ?? 'mm';
  const [texts, setTexts] = useState({
    band_width: part.band_width?.text ?? '',
    lining_radius: part.lining_radius?.text ?? '',
    arc: part.lining_arc_deg == null ? '' : String(part.lining_arc_deg),
  });
  const [units, setUnits] = useState<Record<Name, Unit>>({
    band_width: part.band_width?.unit ?? start,
    lining_radius: part.lining_radius?.unit ?? start,
  });
  const [kept, setKept] = useState(false);
  const arc = arcOf(texts.arc);
  const type = (name: keyof typeof texts) => (text: string) => {
    setTexts({ ...texts, [name]: text });
    setKept(false);
  };
  const wanted = (name: Name, of: Part): TypedLength | null => {
    const old = of[name] ?? null;
    if (texts[name].trim() === '') return null;
    return old && old.text === texts[name].trim() && old.unit === units[name] ? old : typed(texts[name], units[name]);
  };
  const keep = () => {
    if (Number.isNaN(arc) || editing.saving.busy || sealed.value) return;
    void editing.change(
      (of) => ({
        ...of,
        band_width: wanted('band_width', of),
        lining_radius: wanted('lining_radius', of),
        lining_arc_deg: arc,
      }),
      () => setKept(true),
    );
  };
  const { trouble } = editing.saving;
  return (
    <form
      class="drum-sizes"
      aria-label={sizes.title}
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <h2>{sizes.title}</h2>
      <p class="small soft">{sizes.lead}</p>
      {LENGTHS.map((name) => (
        <LengthField
          key={name}
          label={sizes[name]}
          hint={name === 'lining_radius' ? sizes.lining_radius_hint : undefined}
          value={texts[name]}
          unit={units[name]}
          plausible_mm={PLAUSIBLE_MM[name]}
          error={wrongWith(trouble, name)}
          onInput={type(name)}
          onUnit={(unit) => setUnits({ ...units, [name]: unit })}
          onEnter={keep}
        />
      ))}
      <Field
        label={sizes.lining_arc_deg}
        hint={sizes.arc_hint}
        value={texts.arc}
        digits
        inputMode="decimal"
        error={Number.isNaN(arc) ? sizes.arc_bad : wrongWith(trouble, 'lining_arc_deg')}
        onInput={type('arc')}
        onEnter={keep}
      />
      {sealed.value ? null : (
        <button type="submit" disabled={editing.saving.busy}>
          {sizes.keep}
        </button>
      )}
      {kept ? <p role="status">{sizes.kept}</p> : null}
      <TroubleLine text={editing.open === null ? wrongElsewhere(trouble, [...LENGTHS, 'lining_arc_deg']) : undefined} />
    </form>
  );
}
