import { computed, signal } from '@preact/signals';
import { signed } from '../api/client';
import { newId } from '../api/ids';
import type { BenchStep, JobFile, NewBenchStep, NewPass, Pass } from '../api/schema';
import { outbox } from '../state/connection';
import { jobFile } from '../state/job';
import { type BenchEvent, eventsOf, type Wanted } from './events';

/**
 * What is ticked at the bench goes through the outbox: it is kept in this page before it is sent. What the shop has
 * answered is held here until the job is read again, so that no step seems undone in between.
 */
const heldSteps = signal<BenchStep[]>([]);
const heldPasses = signal<Pass[]>([]);

outbox.onAnswer((entry, answer) => {
  if (entry.about === 'step') heldSteps.value = [...heldSteps.value, answer as BenchStep];
  if (entry.about === 'pass') heldPasses.value = [...heldPasses.value, answer as Pass];
});

export interface Ticked {
  part_id: string;
  phase: NewBenchStep['phase'];
  step: string;
  pass?: number;
  event: NewBenchStep['event'];
  detail?: string;
}

export function tick({ pass = 0, detail = '', ...rest }: Ticked): void {
  const job = jobFile.value?.job;
  if (!job) return;
  const body: NewBenchStep = { id: newId(), ...rest, pass, detail, taken_at: new Date().toISOString() };
  const path = `/jobs/${job.id}/bench-steps`;
  outbox.put('step', job.id, 'post', path, signed('post', path), body);
}

export function keepPass(pass: NewPass): void {
  const job = jobFile.value?.job;
  if (!job) return;
  const path = `/jobs/${job.id}/passes`;
  outbox.put('pass', job.id, 'post', path, signed('post', path), pass);
}

export function benchEvents(file: JobFile, wanted: Wanted): BenchEvent[] {
  return eventsOf(file.bench_steps, heldSteps.value, outbox.entries.value, wanted);
}

/** The passes of a part, in order: on record, answered, and still to be sent. */
export function passesOf(file: JobFile, part_id: string): (NewPass & { at?: string })[] {
  const known = new Map<string, NewPass & { at?: string }>();
  for (const one of [...file.passes, ...heldPasses.value]) known.set(one.id, one);
  for (const entry of outbox.entries.value) {
    const body = entry.sent.body as NewPass;
    if (entry.about === 'pass' && entry.state === 'waiting' && !known.has(body.id)) known.set(body.id, body);
  }
  return [...known.values()].filter((one) => one.part_id === part_id);
}

/** How much of what was ticked has not reached the shop yet. */
export const waitingHere = computed(
  () => outbox.waiting.value.filter((one) => one.about === 'step' || one.about === 'pass').length,
);
