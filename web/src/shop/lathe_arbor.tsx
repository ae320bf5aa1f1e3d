import { LengthField } from '../controls/length_field';
import { wrongWith } from '../controls/saving';
import { Choice } from '../shell/choice';
import { words } from '../words';
import { ArborPicture } from './arbor_picture';
import type { LatheDraft, LengthName } from './lathe_draft';

/** Outside of these a figure may be in the other unit: our own, no source. */
const PLAUSIBLE_MM: Record<LengthName, [number, number]> = {
  arbor_diameter_nm: [10, 80],
  thread_start_nm: [30, 600],
  tip_nm: [50, 800],
  nut_engagement_nm: [2, 60],
  travel_nm: [30, 500],
  approach_nm: [0.5, 60],
};

/** The arbor: what decides which pieces go on it and where a stack may end. */
export function LatheArbor({ draft }: { draft: LatheDraft }) {
  const { arbor } = words.shop.lathes;
  const length = (field: LengthName, label: string, note: string) => (
    <LengthField
      label={label}
      plausible_mm={PLAUSIBLE_MM[field]}
      note={note}
      value={draft.texts[field]}
      unit={draft.unit}
      error={wrongWith(draft.saving.trouble, field) ?? (field === 'tip_nm' ? contradicted(draft) : undefined)}
      onInput={draft.type(field)}
      onUnit={draft.setUnit}
      onRead={draft.onRead(field)}
    />
  );
  return (
    <section class="fields" aria-label={arbor.title}>
      <h2>{arbor.title}</h2>
      <ArborPicture
        unit={draft.unit}
        diameter_mm={draft.mm('arbor_diameter_nm')}
        thread_start_mm={draft.mm('thread_start_nm')}
        tip_mm={draft.mm('tip_nm')}
        nut_engagement_mm={draft.mm('nut_engagement_nm')}
      />
      {length('arbor_diameter_nm', arbor.diameter, arbor.diameter_note)}
      {length('thread_start_nm', arbor.thread_start, arbor.thread_start_note)}
      {length('tip_nm', arbor.tip, arbor.tip_note)}
      {length('nut_engagement_nm', arbor.nut_engagement, arbor.nut_engagement_note)}
      <Choice
        shown
        label={arbor.nut_thread}
        value={draft.nutThread}
        options={(['left', 'right'] as const).map((value) => ({ value, label: arbor.threads[value] }))}
        onChange={draft.setNutThread}
      />
      <p class="small soft">{arbor.thread_note[draft.nutThread]}</p>
      {length('travel_nm', arbor.travel, arbor.travel_note)}
      {length('approach_nm', arbor.approach, arbor.approach_note)}
    </section>
  );
}

function contradicted(draft: LatheDraft): string | undefined {
  return draft.against ? words.shop.lathes.arbor.against[draft.against] : undefined;
}
