import type { Lathe } from '../api/schema';
import { Field } from '../controls/field';
import { wrongElsewhere, wrongWith } from '../controls/saving';
import { lengthOfMm } from '../show/length';
import { shop } from '../state/shop';
import { words } from '../words';
import './lathe.css';
import { LatheArbor } from './lathe_arbor';
import { LatheDial, MicrometreField } from './lathe_dial';
import { LATHE_FIELDS, useLatheDraft } from './lathe_draft';
import { InUse, ThingForm, ThingRoom } from './list';
import { NumberListField } from './number_list_field';

export function Lathes() {
  return (
    <ThingRoom
      room="lathes"
      things={shop.value?.lathes ?? []}
      none={words.shop.lathes.none}
      add={words.shop.lathes.add}
      about={about}
      form={(one, onDone) => <LatheForm lathe={one} onDone={onDone} />}
    />
  );
}

function about(lathe: Lathe): string {
  const { lathes } = words.shop;
  const inches = lengthOfMm(lathe.dial_um_per_mark / 1000, { unit: 'in', resolution_nm: 254 });
  const mark = lathes.per_mark(String(lathe.dial_um_per_mark), inches);
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const { arbor_diameter_nm: diameter } = lathe;
  if (!diameter) return `${mark} · ${lathes.arbor.untold}`;
  return `${mark} · ${lathes.arbor.of(lengthOfMm(diameter / 1e6, { unit, resolution_nm: 10_000 }))}`;
}

function LatheForm({ lathe, onDone }: { lathe: Lathe | null; onDone: () => void }) {
  const { lathes } = words.shop;
  const draft = useLatheDraft(lathe, shop.value?.settings.default_unit ?? 'mm', onDone);
  const { trouble, busy } = draft.saving;
  return (
    <ThingForm
      busy={busy}
      ready={draft.ready}
      elsewhere={wrongElsewhere(trouble, LATHE_FIELDS)}
      onSave={draft.save}
      onAsked={draft.ask}
      onTyped={() => draft.saving.setTrouble(null)}
    >
      <Field
        label={lathes.name}
        value={draft.name}
        focused
        error={
          wrongWith(trouble, 'name') ?? (draft.asked && draft.name.trim() === '' ? words.shop.needed_here : undefined)
        }
        onInput={draft.setName}
      />
      <LatheDial draft={draft} />
      {lathe ? (
        <p>
          <a class="button" href={`/shop/lathes/${lathe.id}/study`}>
            {words.dials.to_study}
          </a>
        </p>
      ) : null}
      <LatheArbor draft={draft} />
      <LatheGears draft={draft} />
      <MicrometreField draft={draft} field="dial_sd_um" label={lathes.dial_sd} note={lathes.dial_sd_note} />
      <MicrometreField draft={draft} field="mount_runout_um" label={lathes.mount} note={lathes.mount_note} />
      <Field label={lathes.note} value={draft.note} error={wrongWith(trouble, 'note')} onInput={draft.setNote} />
      <InUse active={draft.active} onChange={draft.setActive} />
    </ThingForm>
  );
}

/** The speeds and feeds that this lathe has: a plan uses no others. */
function LatheGears({ draft }: { draft: ReturnType<typeof useLatheDraft> }) {
  const { gears } = words.shop.lathes;
  const { trouble } = draft.saving;
  const inches = (mm: number) => lengthOfMm(mm, { unit: 'in', resolution_nm: 2540 });
  return (
    <section class="fields" aria-label={gears.title}>
      <h2>{gears.title}</h2>
      <NumberListField
        label={gears.speeds}
        hint={gears.speeds_hint}
        note={gears.speeds_note}
        value={draft.texts.speeds_rpm}
        error={wrongWith(trouble, 'speeds_rpm')}
        onInput={draft.type('speeds_rpm')}
        show={(rpm) => gears.rpm(rpm)}
      />
      <NumberListField
        label={gears.feeds}
        hint={gears.feeds_hint}
        note={gears.feeds_note}
        value={draft.texts.feeds_mm_per_rev}
        error={wrongWith(trouble, 'feeds_mm_per_rev')}
        onInput={draft.type('feeds_mm_per_rev')}
        show={(feed) => gears.feed(feed, inches(feed))}
      />
    </section>
  );
}
