import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Lathe } from '../api/schema';
import { Field } from '../controls/field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { lengthOfMm } from '../show/length';
import { loadShop, shop } from '../state/shop';
import { words } from '../words';
import { InUse, ThingForm, ThingRoom } from './list';
import { numberOf } from './numbers';

export function Lathes() {
  return (
    <ThingRoom
      room="lathes"
      things={shop.value?.lathes ?? []}
      none={words.shop.lathes.none}
      add={words.shop.lathes.add}
      about={(one) =>
        words.shop.lathes.per_mark(
          String(one.dial_um_per_mark),
          lengthOfMm(one.dial_um_per_mark / 1000, { unit: 'in', resolution_nm: 254 }),
        )
      }
      form={(one, onDone) => <LatheForm lathe={one} onDone={onDone} />}
    />
  );
}

type NumberName = 'dial_um_per_mark' | 'dial_sd_um' | 'mount_runout_um';

function LatheForm({ lathe, onDone }: { lathe: Lathe | null; onDone: () => void }) {
  const { lathes } = words.shop;
  const [id] = useState(() => lathe?.id ?? newId());
  const [name, setName] = useState(lathe?.name ?? '');
  const [note, setNote] = useState(lathe?.note ?? '');
  const [active, setActive] = useState(lathe?.active ?? true);
  const [texts, setTexts] = useState<Record<NumberName, string>>({
    dial_um_per_mark: lathe ? String(lathe.dial_um_per_mark) : '',
    dial_sd_um: String(lathe?.dial_sd_um ?? 5),
    mount_runout_um: String(lathe?.mount_runout_um ?? 30),
  });
  const saving = useSaving();
  const numbers = {
    dial_um_per_mark: numberOf(texts.dial_um_per_mark),
    dial_sd_um: numberOf(texts.dial_sd_um),
    mount_runout_um: numberOf(texts.mount_runout_um),
  };
  const ready = name.trim() !== '' && Object.values(numbers).every((value) => value !== null);
  const save = () =>
    saving.run(async () => {
      const { dial_um_per_mark, dial_sd_um, mount_runout_um } = numbers;
      if (dial_um_per_mark === null || dial_sd_um === null || mount_runout_um === null) return;
      const body = { id, name: name.trim(), dial_um_per_mark, dial_sd_um, mount_runout_um, note: note.trim(), active };
      await call('put', '/lathes/{lathe_id}', { path: { lathe_id: id }, body });
      await loadShop();
      onDone();
    });
  const number = (field: NumberName, label: string, help: string) => (
    <Field
      label={label}
      note={help}
      digits
      inputMode="decimal"
      value={texts[field]}
      error={
        wrongWith(saving.trouble, field) ??
        (texts[field].trim() !== '' && numbers[field] === null ? words.shop.rules.number_bad : undefined)
      }
      onInput={(text) => setTexts({ ...texts, [field]: text })}
      after={<span class="unit">{lathes.um}</span>}
    />
  );
  return (
    <ThingForm
      busy={saving.busy}
      ready={ready}
      elsewhere={wrongElsewhere(saving.trouble, ['name', 'note', ...Object.keys(numbers)])}
      onSave={save}
    >
      <Field label={lathes.name} value={name} focused error={wrongWith(saving.trouble, 'name')} onInput={setName} />
      {number('dial_um_per_mark', lathes.dial, lathes.dial_note)}
      {number('dial_sd_um', lathes.dial_sd, lathes.dial_sd_note)}
      {number('mount_runout_um', lathes.mount, lathes.mount_note)}
      <Field label={lathes.note} value={note} error={wrongWith(saving.trouble, 'note')} onInput={setNote} />
      <InUse active={active} onChange={setActive} />
    </ThingForm>
  );
}
