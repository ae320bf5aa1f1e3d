import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Insert, Unit } from '../api/schema';
import { Field } from '../controls/field';
import { LengthField, nmOf } from '../controls/length_field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { loadShop } from '../state/shop';
import { words } from '../words';
import { InUse, ThingForm } from './list';
import { numberOf, textOfNm } from './numbers';

const FIELDS = ['name', 'nose_radius_nm', 'max_speed_m_per_min', 'corners', 'note'];
const MOST_CORNERS = 16;

/** Common practice, no source. */
const NOSES_MM: [number, number] = [0.05, 3.2];

export function InsertForm({ insert, onDone }: { insert: Insert | null; onDone: () => void }) {
  const { edges, rules } = words.shop;
  const [id] = useState(() => insert?.id ?? newId());
  const [name, setName] = useState(insert?.name ?? '');
  const [unit, setUnit] = useState<Unit>('mm');
  const [radius, setRadius] = useState(textOfNm(insert?.nose_radius_nm, 'mm'));
  const [speed, setSpeed] = useState(insert ? String(insert.max_speed_m_per_min) : '');
  const [corners, setCorners] = useState(String(insert?.corners ?? 3));
  const [note, setNote] = useState(insert?.note ?? '');
  const [active, setActive] = useState(insert?.active ?? true);
  const saving = useSaving();
  const max_speed_m_per_min = numberOf(speed);
  const count = /^[0-9]+$/.test(corners.trim()) ? Number(corners.trim()) : 0;
  const countable = count >= 1 && count <= MOST_CORNERS;
  const ready = name.trim() !== '' && radius.trim() !== '' && max_speed_m_per_min !== null && countable;
  const save = () =>
    saving.run(async () => {
      const nose_radius_nm = await nmOf(radius, unit, 'nose_radius_nm');
      if (nose_radius_nm === null || max_speed_m_per_min === null) return;
      const body = {
        id,
        name: name.trim(),
        nose_radius_nm,
        max_speed_m_per_min,
        corners: count,
        note: note.trim(),
        active,
      };
      await call('put', '/inserts/{insert_id}', { path: { insert_id: id }, body });
      await loadShop();
      onDone();
    });
  const { trouble } = saving;
  return (
    <ThingForm
      busy={saving.busy}
      ready={ready}
      elsewhere={wrongElsewhere(trouble, FIELDS)}
      onSave={save}
      onTyped={() => saving.setTrouble(null)}
    >
      <Field label={edges.name} value={name} focused error={wrongWith(trouble, 'name')} onInput={setName} />
      <LengthField
        label={edges.nose_radius}
        note={edges.nose_radius_note}
        value={radius}
        unit={unit}
        plausible_mm={NOSES_MM}
        error={wrongWith(trouble, 'nose_radius_nm')}
        onInput={setRadius}
        onUnit={setUnit}
      />
      <Field
        label={edges.max_speed}
        note={edges.max_speed_note}
        digits
        inputMode="decimal"
        value={speed}
        error={
          wrongWith(trouble, 'max_speed_m_per_min') ??
          (speed.trim() !== '' && max_speed_m_per_min === null ? rules.number_bad : undefined)
        }
        onInput={setSpeed}
        after={<span class="unit">{edges.m_per_min}</span>}
      />
      <Field
        label={edges.corners}
        digits
        inputMode="numeric"
        value={corners}
        error={wrongWith(trouble, 'corners') ?? (countable ? undefined : edges.corners_bad)}
        onInput={setCorners}
      />
      <Field label={edges.note} value={note} error={wrongWith(trouble, 'note')} onInput={setNote} />
      <InUse active={active} onChange={setActive} />
    </ThingForm>
  );
}
