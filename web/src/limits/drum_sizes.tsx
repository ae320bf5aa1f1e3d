import { useState } from 'preact/hooks';
import type { Part } from '../api/schema';
import { Field } from '../controls/field';
import { LengthField } from '../controls/length_field';
import { wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { jobFile, sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import type { Editing } from './editing';
import {
  arcOf,
  DRUM_LENGTHS,
  type DrumLength,
  shownSizes,
  type TouchedSizes,
  UNTOUCHED,
  withSizes,
} from './part_fields';

const PLAUSIBLE_MM: Record<DrumLength, [number, number]> = { band_width: [10, 300], lining_radius: [40, 750] };

/** What of a drum and its shoe the time of a pass and the drawing of the lining go by. */
export function DrumSizes({ part, editing }: { part: Part; editing: Editing }) {
  const { sizes } = words.limits;
  const start = shop.value?.settings.default_unit ?? 'mm';
  const [touched, setTouched] = useState(UNTOUCHED);
  /** The parts as they stood when the first field was touched: what is saved elsewhere since then is a conflict. */
  const [since, setSince] = useState<readonly Part[] | null>(null);
  const [kept, setKept] = useState(false);
  const shown = shownSizes(part, touched, start);
  const arc = arcOf(shown.arc);
  const touch = (some: Partial<TouchedSizes>) => {
    setTouched({ ...touched, ...some });
    if (since === null) setSince(jobFile.value?.parts ?? null);
    setKept(false);
  };
  const keep = () => {
    if (Number.isNaN(arc) || editing.saving.busy || sealed.value) return;
    const then = () => {
      setTouched(UNTOUCHED);
      setSince(null);
      setKept(true);
    };
    void editing.change((of) => withSizes(of, touched, start), then, since);
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
      {DRUM_LENGTHS.map((name) => (
        <LengthField
          key={name}
          label={sizes[name]}
          hint={name === 'lining_radius' ? sizes.lining_radius_hint : undefined}
          value={shown[name].text}
          unit={shown[name].unit}
          plausible_mm={PLAUSIBLE_MM[name]}
          error={wrongWith(trouble, name)}
          onInput={(text) => touch({ [name]: text })}
          onUnit={(unit) => touch({ units: { ...touched.units, [name]: unit } })}
          onEnter={keep}
        />
      ))}
      <Field
        label={sizes.lining_arc_deg}
        hint={sizes.arc_hint}
        value={shown.arc}
        digits
        inputMode="decimal"
        error={Number.isNaN(arc) ? sizes.arc_bad : wrongWith(trouble, 'lining_arc_deg')}
        onInput={(text) => touch({ arc: text })}
        onEnter={keep}
      />
      {sealed.value ? null : (
        <button type="submit" disabled={editing.saving.busy}>
          {sizes.keep}
        </button>
      )}
      {kept ? <p role="status">{sizes.kept}</p> : null}
      <TroubleLine
        text={editing.open === null ? wrongElsewhere(trouble, [...DRUM_LENGTHS, 'lining_arc_deg']) : undefined}
      />
    </form>
  );
}
