import { call } from '../api/client';
import { newId } from '../api/ids';
import type { ReferencePart, Unit } from '../api/schema';
import { Field } from '../controls/field';
import { LengthField, nmOf, typed } from '../controls/length_field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { length, typedLength } from '../show/length';
import { useStanding } from '../state/answer';
import { useKept } from '../state/kept';
import { REFERENCE_PARTS } from '../state/kinds';
import { shop } from '../state/shop';
import { words } from '../words';
import { InUse, ThingForm, ThingRoom } from './list';
import { textOfNm } from './numbers';

const draftOf = (id: string) => `reference_part.${id}`;

/** Parts whose size at one marked place is known better than anybody here can read it. */
export function ReferenceParts() {
  const { answer, trouble, again } = useStanding(() => call('get', '/reference-parts'), REFERENCE_PARTS);
  const said = words.studies.parts;
  return (
    <ThingRoom
      room="reference-parts"
      things={answer ?? []}
      none={answer ? said.none : ''}
      add={said.add}
      before={<TroubleLine text={trouble?.message} />}
      about={(one) => `${sizeOf(one)} · ${one.place_words}`}
      draftOf={draftOf}
      form={(one, onDone) => (
        <PartForm
          part={one}
          onDone={() => {
            again();
            onDone();
          }}
        />
      )}
    >
      <p>
        <a href="/studies">{words.studies.title}</a>
      </p>
    </ThingRoom>
  );
}

function sizeOf(one: ReferencePart): string {
  const { unit, resolution_nm = 1000 } = one.reference;
  const fine = { unit, resolution_nm: Math.max(1, Math.round(resolution_nm / 10)) };
  return words.studies.parts.about(typedLength(one.reference), length(one.expanded_uncertainty_nm, fine));
}

const FIELDS = ['name', 'place_words', 'reference', 'expanded_uncertainty_nm', 'source'];

function PartForm({ part, onDone }: { part: ReferencePart | null; onDone: () => void }) {
  const said = words.studies.parts;
  const first: Unit = part?.reference.unit ?? shop.value?.settings.default_unit ?? 'mm';
  const { draft, change, drop } = useKept(
    draftOf(part?.id ?? 'new'),
    () => ({
      id: part?.id ?? newId(),
      name: part?.name ?? '',
      place_words: part?.place_words ?? '',
      source: part?.source ?? '',
      active: part?.active ?? true,
      size: { text: part?.reference.text ?? '', unit: first },
      uncertainty: { text: textOfNm(part?.expanded_uncertainty_nm, first), unit: first },
    }),
    part,
  );
  const { size, uncertainty } = draft;
  const saving = useSaving();
  const save = () =>
    saving.run(async () => {
      const expanded_uncertainty_nm = await nmOf(uncertainty.text, uncertainty.unit, 'expanded_uncertainty_nm');
      const body: ReferencePart = {
        id: draft.id,
        active: draft.active,
        name: draft.name.trim(),
        place_words: draft.place_words.trim(),
        source: draft.source.trim(),
        reference: typed(size.text, size.unit),
        expanded_uncertainty_nm: expanded_uncertainty_nm ?? 0,
      };
      await call('put', '/reference-parts/{reference_part_id}', { path: { reference_part_id: body.id }, body });
      drop();
      onDone();
    });
  const ready = [draft.name, draft.place_words, draft.source, size.text, uncertainty.text].every((one) => one.trim());
  return (
    <ThingForm
      busy={saving.busy}
      ready={ready}
      elsewhere={wrongElsewhere(saving.trouble, FIELDS)}
      onSave={save}
      onTyped={() => saving.setTrouble(null)}
    >
      <Field
        focused
        label={said.name}
        hint={said.name_hint}
        value={draft.name}
        error={wrongWith(saving.trouble, 'name')}
        onInput={(name) => change({ name })}
      />
      <Field
        label={said.place}
        hint={said.place_hint}
        note={said.place_note}
        value={draft.place_words}
        error={wrongWith(saving.trouble, 'place_words')}
        onInput={(place_words) => change({ place_words })}
      />
      <LengthField
        label={said.reference}
        value={size.text}
        unit={size.unit}
        error={wrongWith(saving.trouble, 'reference')}
        onInput={(text) => change({ size: { ...size, text } })}
        onUnit={(unit) => change({ size: { ...size, unit } })}
      />
      <LengthField
        label={said.uncertainty}
        note={said.uncertainty_note}
        value={uncertainty.text}
        unit={uncertainty.unit}
        error={wrongWith(saving.trouble, 'expanded_uncertainty_nm')}
        onInput={(text) => change({ uncertainty: { ...uncertainty, text } })}
        onUnit={(unit) => change({ uncertainty: { ...uncertainty, unit } })}
      />
      <Field
        lines={2}
        label={said.source}
        hint={said.source_hint}
        value={draft.source}
        error={wrongWith(saving.trouble, 'source')}
        onInput={(source) => change({ source })}
      />
      <InUse active={draft.active} onChange={(active) => change({ active })} />
    </ThingForm>
  );
}
