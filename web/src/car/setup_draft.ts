import { useState } from 'preact/hooks';
import { call, Refused } from '../api/client';
import type { JobFile, MeasuringPlan, Part, TypedLength, Unit } from '../api/schema';
import { sameJson } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { typed } from '../controls/length_field';
import { useSaving } from '../controls/saving';
import { firstPlan } from '../measure/setup';
import { planOf, refreshJob } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';

type LengthName = 'hub_reading_diameter' | 'outer_diameter';
const WHOLE: readonly string[] = ['hub_reading_diameter', 'outer_diameter'];
const CONFLICT = 409;

interface Texts {
  hub: string;
  hub_unit: Unit;
  outer: string;
  outer_unit: Unit;
}

/** What is asked of all wheels of the job at once: studs, circles and points of the readings on the car. */
export function useCarSetup(file: JobFile, part: Part, onKept: () => void) {
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const [plan, setPlan] = useState<MeasuringPlan>(() => firstPlan(part, 'on_car'));
  const [studs, setStuds] = useState<number | null>(part.studs ?? file.parts.find((one) => one.studs)?.studs ?? null);
  const [texts, setTexts] = useState<Texts>({
    hub: part.hub_reading_diameter?.text ?? '',
    hub_unit: part.hub_reading_diameter?.unit ?? unit,
    outer: part.outer_diameter?.text ?? '',
    outer_unit: part.outer_diameter?.unit ?? unit,
  });
  const saving = useSaving();
  /** A field that was not touched keeps what stood there; what is known of another wheel stays as it is. */
  const lengthOf = (of: Part, name: LengthName, text: string, its: Unit): TypedLength | null => {
    const old = of[name] ?? null;
    if (text.trim() === '' || (old && of.id !== part.id)) return old;
    return old && old.text === text.trim() && old.unit === its ? old : typed(text, its);
  };
  const filled = (of: Part): Part => ({
    ...of,
    studs: studs ?? of.studs ?? null,
    hub_reading_diameter: lengthOf(of, 'hub_reading_diameter', texts.hub, texts.hub_unit),
    outer_diameter: lengthOf(of, 'outer_diameter', texts.outer, texts.outer_unit),
  });
  const save = () =>
    saving.run(async () => {
      for (const one of file.parts) {
        const wanted = filled(one);
        if (!sameJson(wanted, one)) await savePart(file, one, wanted);
        const own = planOf(one, 'on_car');
        if (!own || one.id === part.id) await savePlan(file, one, own, plan);
      }
      await refreshJob();
      onKept();
    });
  return { plan, setPlan, studs, setStuds, texts, setTexts, saving, save };
}

export type CarSetupDraft = ReturnType<typeof useCarSetup>;

async function savePart(file: JobFile, base: Part, wanted: Part): Promise<void> {
  const path = { job_id: file.job.id, part_id: base.id };
  const put = (body: Part) => call('put', '/jobs/{job_id}/parts/{part_id}', { path, body });
  const outcome = await saveMerging(base, wanted, put, (field) => WHOLE.includes(field));
  if ('merge' in outcome) {
    await refreshJob();
    throw new Refused(CONFLICT, { code: 'changed_meanwhile', field: '', message: words.measure.setup.changed });
  }
}

async function savePlan(file: JobFile, part: Part, own: MeasuringPlan | null, plan: MeasuringPlan): Promise<void> {
  const { version: _, ...rest } = plan;
  await call('put', '/jobs/{job_id}/parts/{part_id}/plans/{stage}', {
    path: { job_id: file.job.id, part_id: part.id, stage: 'on_car' },
    body: { ...rest, part_id: part.id, ...(own?.version ? { version: own.version } : {}) },
  });
}
