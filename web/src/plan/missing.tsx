import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { JobFile, Part, Unit } from '../api/schema';
import { LengthField, typed } from '../controls/length_field';
import { useSaving } from '../controls/saving';
import { stepAddress } from '../shell/step_path';
import { refreshJob } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';

interface Props {
  file: JobFile;
  part: Part;
  missing: readonly string[];
  onKept: () => void;
}

/** What is typed here at once; everything else is kept where it belongs, and a link leads there. */
const TYPED: Record<string, (part: Part, text: string, unit: Unit) => Part> = {
  'seat.ring_inner': (part, text, unit) => ({ ...part, seat: { ...part.seat, ring_inner: typed(text, unit) } }),
  'part.outer_diameter': (part, text, unit) => ({ ...part, outer_diameter: typed(text, unit) }),
  outer_diameter: (part, text, unit) => ({ ...part, outer_diameter: typed(text, unit) }),
  band_width: (part, text, unit) => ({ ...part, band_width: typed(text, unit) }),
};

export function wayFor(field: string, number: number | undefined): { to: string; word: string } | null {
  const { give } = words.plan;
  if (field === 'lathe') return { to: stepAddress(number, 'arrival'), word: give.arrival };
  if (field.startsWith('lathe')) return { to: '/shop/lathes', word: give.lathe };
  if (field.startsWith('insert')) return { to: '/shop/edges', word: give.insert };
  if (field.startsWith('limits')) return { to: stepAddress(number, 'limits'), word: give.limits };
  if (field.startsWith('verdict')) return { to: stepAddress(number, 'verdict'), word: give.verdict };
  return null;
}

/** One thing at a time that a plan still needs, asked for on the spot. */
export function Missing({ file, part, missing, onKept }: Props) {
  const { plan } = words;
  const [field = ''] = missing;
  const change = TYPED[field];
  const way = wayFor(field, file.job.number);
  return (
    <section class="plan-missing" aria-label={plan.missing_title}>
      <h2>{plan.missing_title}</h2>
      {change ? (
        <Ask key={field} {...{ file, part, field, change, onKept }} />
      ) : (
        <>
          <p class="plan-wanted">{plan.missing[field] ?? field}</p>
          {way ? (
            <p>
              <a class="button" href={way.to}>
                {way.word}
              </a>
            </p>
          ) : null}
        </>
      )}
      {missing.length > 1 ? <p class="soft">{plan.missing_more(missing.length - 1)}</p> : null}
    </section>
  );
}

/** Asks for one length of a part on the spot, where another page needs it too; nothing for a field that is none. */
export function AskLength({ file, part, field }: { file: JobFile; part: Part; field: string }) {
  const change = TYPED[field];
  return change ? <Ask {...{ file, part, field, change, onKept: () => undefined }} /> : null;
}

interface AskProps extends Omit<Props, 'missing'> {
  field: string;
  change: (part: Part, text: string, unit: Unit) => Part;
}

function Ask({ file, part, field, change, onKept }: AskProps) {
  const { plan } = words;
  const [text, setText] = useState('');
  const [unit, setUnit] = useState<Unit>(shop.value?.settings.default_unit ?? 'mm');
  const saving = useSaving();
  const keep = () => {
    if (text.trim() === '' || saving.busy) return;
    void saving.run(async () => {
      const path = { job_id: file.job.id, part_id: part.id };
      await call('put', '/jobs/{job_id}/parts/{part_id}', { path, body: change(part, text, unit) });
      await refreshJob();
      onKept();
    });
  };
  return (
    <>
      <LengthField
        label={plan.missing[field] ?? field}
        value={text}
        unit={unit}
        focused
        plausible_mm={field === 'band_width' ? [10, 300] : [50, 500]}
        error={saving.trouble?.message}
        onInput={setText}
        onUnit={setUnit}
        onEnter={keep}
      />
      <button type="button" disabled={saving.busy} onClick={keep}>
        {plan.keep}
      </button>
    </>
  );
}
