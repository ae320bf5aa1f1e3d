import { computed, effect, signal } from '@preact/signals';
import { call } from '../api/client';
import type { Assessment, JobFile, MeasuringPlan, Part, PartAssessment, Stage } from '../api/schema';
import { place } from '../route/router';
import { kindOf } from '../show/part_kind';
import { type PartKind, spokenOf } from '../words';

/** The job that is open on this tablet, as the shop last told it. */
export const jobFile = signal<JobFile | null>(null);
export const assessment = signal<Assessment | null>(null);

/** A whole number while a job is asked for, so that an answer that comes too late is left aside. */
let asked = 0;

export async function openJob(idOrNumber: string): Promise<JobFile> {
  const mine = ++asked;
  const shown = jobFile.value?.job;
  if (shown && shown.id !== idOrNumber && String(shown.number) !== idOrNumber) {
    jobFile.value = null;
    assessment.value = null;
  }
  const file = await call('get', '/jobs/{job_id}', { path: { job_id: idOrNumber } });
  if (mine === asked) {
    jobFile.value = file;
    void refreshAssessment();
  }
  return file;
}

let assessing = false;
let assessAgain = false;

/** Asks what the readings mean; asked while under way, it asks once more after that. */
export async function refreshAssessment(): Promise<void> {
  assessAgain = true;
  if (assessing) return;
  assessing = true;
  try {
    while (assessAgain) {
      assessAgain = false;
      const id = jobFile.value?.job.id;
      if (!id) break;
      const answer = await call('get', '/jobs/{job_id}/assessment', { path: { job_id: id } });
      if (jobFile.value?.job.id === id) assessment.value = answer;
    }
  } catch {
    // The sign for a lost connection is up already, and the next change asks again.
  } finally {
    assessing = false;
  }
}

/** Reads the open job again, as after a change that another tablet made. */
export async function refreshJob(): Promise<void> {
  const id = jobFile.value?.job.id;
  if (id) await openJob(id);
}

export const parts = computed(() => jobFile.value?.parts ?? []);

const OF_A_JOB = /^\/jobs\/[0-9]/;
/** What the screen's job turns; away from a job nothing else than a disc. */
const onScreen = computed<PartKind>(() => (OF_A_JOB.test(place.value.path) ? kindOf(parts.value[0]) : 'disc'));
effect(() => {
  spokenOf.value = onScreen.value;
});

export const sealed = computed(() => jobFile.value?.job.state === 'sealed');

export function planOf(part: Part, stage: Stage): MeasuringPlan | null {
  return jobFile.value?.plans.find((plan) => plan.part_id === part.id && plan.stage === stage) ?? null;
}

export function assessmentOf(part: Part): PartAssessment | null {
  return assessment.value?.parts.find((one) => one.part_id === part.id) ?? null;
}
