import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Band, Unit } from '../api/schema';
import { Field } from '../controls/field';
import { LengthField, nmOf } from '../controls/length_field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { loadShop, shop } from '../state/shop';
import { words } from '../words';
import { InUse, ThingForm } from './list';
import { textOfNm } from './numbers';

const FIELDS = ['name', 'hook', 'least_diameter_nm', 'most_diameter_nm', 'note'];

/** Diameters of rotors that the shop takes: outside of these the figure may be in the other unit. */
const ROTORS_MM: [number, number] = [100, 600];

export function BandForm({ band, onDone }: { band: Band | null; onDone: () => void }) {
  const { edges } = words.shop;
  const start = shop.value?.settings.default_unit ?? 'mm';
  const [id] = useState(() => band?.id ?? newId());
  const [unit, setUnit] = useState<Unit>(start);
  const [texts, setTexts] = useState({
    name: band?.name ?? '',
    hook: band?.hook ?? '',
    least: textOfNm(band?.least_diameter_nm, start),
    most: textOfNm(band?.most_diameter_nm, start),
    note: band?.note ?? '',
  });
  const [active, setActive] = useState(band?.active ?? true);
  const saving = useSaving();
  const { trouble } = saving;
  const type = (name: keyof typeof texts) => (text: string) => setTexts((now) => ({ ...now, [name]: text }));
  const save = () =>
    saving.run(async () => {
      const [least_diameter_nm, most_diameter_nm] = await Promise.all([
        nmOf(texts.least, unit, 'least_diameter_nm'),
        nmOf(texts.most, unit, 'most_diameter_nm'),
      ]);
      const { name, hook, note } = texts;
      const body = {
        id,
        name: name.trim(),
        hook: hook.trim(),
        least_diameter_nm,
        most_diameter_nm,
        note: note.trim(),
        active,
      };
      await call('put', '/bands/{band_id}', { path: { band_id: id }, body });
      await loadShop();
      onDone();
    });
  const diameter = (name: 'least' | 'most', field: string) => (
    <LengthField
      label={edges[name]}
      value={texts[name]}
      unit={unit}
      plausible_mm={ROTORS_MM}
      error={wrongWith(trouble, field)}
      onInput={type(name)}
      onUnit={setUnit}
    />
  );
  return (
    <ThingForm
      busy={saving.busy}
      ready={texts.name.trim() !== ''}
      elsewhere={wrongElsewhere(trouble, FIELDS)}
      onSave={save}
      onTyped={() => saving.setTrouble(null)}
    >
      <Field label={edges.name} value={texts.name} focused error={wrongWith(trouble, 'name')} onInput={type('name')} />
      <Field label={edges.hook} value={texts.hook} error={wrongWith(trouble, 'hook')} onInput={type('hook')} />
      {diameter('least', 'least_diameter_nm')}
      {diameter('most', 'most_diameter_nm')}
      <Field label={edges.note} value={texts.note} error={wrongWith(trouble, 'note')} onInput={type('note')} />
      <InUse active={active} onChange={setActive} />
    </ThingForm>
  );
}
