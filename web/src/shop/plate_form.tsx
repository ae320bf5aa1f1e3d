import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { TaperPlate, Unit } from '../api/schema';
import { Field } from '../controls/field';
import { LengthField, nmOf, type ReadLength } from '../controls/length_field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { length } from '../show/length';
import { loadShop, shop } from '../state/shop';
import { words } from '../words';
import { InUse, ThingForm } from './list';
import { textOfNm } from './numbers';

const FIELDS = ['name', 'hook', 'taper_um', 'diameter_nm', 'studs', 'note'];
const [FEWEST_STUDS, MOST_STUDS] = [3, 12];
const NM_PER_UM = 1000;

/** Common practice, no source: outside of these a figure may be in the other unit. */
const TAPERS_MM: [number, number] = [0.005, 0.5];
const DIAMETERS_MM: [number, number] = [80, 400];
/** A usual circle for the indicator, for the sentence that says what a plate does. */
const CIRCLE_NM = 250e6;

export function PlateForm({ plate, onDone }: { plate: TaperPlate | null; onDone: () => void }) {
  const { plates } = words.shop;
  const start = shop.value?.settings.default_unit ?? 'mm';
  const [id] = useState(() => plate?.id ?? newId());
  const [unit, setUnit] = useState<Unit>(start);
  const [texts, setTexts] = useState({
    name: plate?.name ?? '',
    hook: plate?.hook ?? '',
    taper: textOfNm(plate ? plate.taper_um * NM_PER_UM : null, start),
    diameter: textOfNm(plate?.diameter_nm, start),
    studs: String(plate?.studs ?? 5),
    note: plate?.note ?? '',
  });
  const [active, setActive] = useState(plate?.active ?? true);
  const [read, setRead] = useState<{ taper?: ReadLength | null; diameter?: ReadLength | null }>({});
  const saving = useSaving();
  const { trouble } = saving;
  const type = (name: keyof typeof texts) => (text: string) => setTexts((now) => ({ ...now, [name]: text }));
  const studs = /^[0-9]+$/.test(texts.studs.trim()) ? Number(texts.studs.trim()) : 0;
  const countable = studs >= FEWEST_STUDS && studs <= MOST_STUDS;
  const ready = texts.name.trim() !== '' && texts.taper.trim() !== '' && texts.diameter.trim() !== '' && countable;
  const save = () =>
    saving.run(async () => {
      const [taper_nm, diameter_nm] = await Promise.all([
        nmOf(texts.taper, unit, 'taper_um'),
        nmOf(texts.diameter, unit, 'diameter_nm'),
      ]);
      if (taper_nm === null || diameter_nm === null) return;
      const body: TaperPlate = {
        id,
        name: texts.name.trim(),
        hook: texts.hook.trim(),
        taper_um: taper_nm / NM_PER_UM,
        diameter_nm,
        studs,
        note: texts.note.trim(),
        active,
      };
      await call('put', '/taper-plates/{taper_plate_id}', { path: { taper_plate_id: id }, body });
      await loadShop();
      onDone();
    });
  return (
    <ThingForm
      busy={saving.busy}
      ready={ready}
      elsewhere={wrongElsewhere(trouble, FIELDS)}
      onSave={save}
      onTyped={() => saving.setTrouble(null)}
    >
      <Field
        label={plates.name}
        hint={plates.name_hint}
        value={texts.name}
        focused
        error={wrongWith(trouble, 'name')}
        onInput={type('name')}
      />
      <Field label={plates.hook} value={texts.hook} error={wrongWith(trouble, 'hook')} onInput={type('hook')} />
      <LengthField
        label={plates.taper}
        note={plates.taper_note}
        value={texts.taper}
        unit={unit}
        plausible_mm={TAPERS_MM}
        error={wrongWith(trouble, 'taper_um')}
        onInput={type('taper')}
        onUnit={setUnit}
        onRead={(taper) => setRead((now) => ({ ...now, taper }))}
      />
      <LengthField
        label={plates.diameter}
        value={texts.diameter}
        unit={unit}
        plausible_mm={DIAMETERS_MM}
        error={wrongWith(trouble, 'diameter_nm')}
        onInput={type('diameter')}
        onUnit={setUnit}
        onRead={(diameter) => setRead((now) => ({ ...now, diameter }))}
        note={tilt(read.taper, read.diameter)}
      />
      <Field
        label={plates.studs}
        digits
        inputMode="numeric"
        value={texts.studs}
        error={wrongWith(trouble, 'studs') ?? (countable ? undefined : plates.studs_bad)}
        onInput={type('studs')}
      />
      <Field
        label={plates.note}
        hint={plates.note_hint}
        value={texts.note}
        error={wrongWith(trouble, 'note')}
        onInput={type('note')}
      />
      <InUse active={active} onChange={setActive} />
    </ThingForm>
  );
}

/** What a plate does to a part that ran true: its slope, on a usual circle. */
function tilt(taper: ReadLength | null | undefined, diameter: ReadLength | null | undefined): string | undefined {
  if (!taper || !diameter || diameter.nm <= 0) return undefined;
  const shown = (nm: number, resolution_nm: number) => length(nm, { unit: diameter.unit, resolution_nm });
  return words.shop.plates.tilts(shown((taper.nm * CIRCLE_NM) / diameter.nm, 1000), shown(CIRCLE_NM, 1e6));
}
