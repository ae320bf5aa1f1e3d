import { useState } from 'preact/hooks';
import { call, Refused } from '../api/client';
import type { JobFile, MeasuringPlan, Part } from '../api/schema';
import { sameJson } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { useSaving } from '../controls/saving';
import { firstPlan } from '../measure/setup';
import { dropDraft, keepDraft, readDraft } from '../state/drafts';
import { planOf, refreshJob } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import {
  LENGTHS,
  type LengthName,
  shownLength,
  shownStuds,
  type TouchedSetup,
  UNTOUCHED,
  withSetup,
} from './setup_fields';

const CONFLICT = 409;

/**
 * What is asked of all wheels of the job at once: studs, circles and points of the readings on the car. What is touched
 * is kept in the page until it is saved, or let go.
 */
export function useCarSetup(file: JobFile, part: Part, onKept: () => void) {
  const start = shop.value?.settings.default_unit ?? 'mm';
  const name = `car_setup.${part.id}`;
  const [touched, setTouched] = useState<TouchedSetup>(() => readDraft(localStorage, name, UNTOUCHED));
  const saving = useSaving();
  const plan: MeasuringPlan = { ...firstPlan(part, 'on_car'), ...touched.plan };
  const touch = (some: Partial<TouchedSetup>) => {
    const next = { ...touched, ...some };
    setTouched(next);
    keepDraft(localStorage, name, next);
  };
  const letGo = () => {
    dropDraft(localStorage, name);
    setTouched(UNTOUCHED);
  };
  const save = () =>
    saving.run(async () => {
      for (const one of file.parts) {
        const wanted = withSetup(one, part, file.parts, touched, start);
        if (!sameJson(wanted, one)) await savePart(file, one, wanted);
        const own = planOf(one, 'on_car');
        if (!own || one.id === part.id) await savePlan(file, one, own, plan);
      }
      await refreshJob();
      letGo();
      onKept();
    });
  return {
    plan,
    changePlan: (some: Partial<MeasuringPlan>) => touch({ plan: { ...touched.plan, ...some } }),
    studs: shownStuds(part, file.parts, touched),
    setStuds: (studs: number) => touch({ studs }),
    length: (which: LengthName) => shownLength(part, which, touched, start),
    changeLength: (which: LengthName, some: NonNullable<TouchedSetup['lengths'][LengthName]>) =>
      touch({ lengths: { ...touched.lengths, [which]: { ...touched.lengths[which], ...some } } }),
    saving,
    save,
    letGo,
  };
}

export type CarSetupDraft = ReturnType<typeof useCarSetup>;

export async function savePart(file: JobFile, base: Part, wanted: Part): Promise<void> {
  const path = { job_id: file.job.id, part_id: base.id };
  const put = (body: Part) => call('put', '/jobs/{job_id}/parts/{part_id}', { path, body });
  const outcome = await saveMerging(base, wanted, put, (field) => LENGTHS.some((one) => one === field));
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
