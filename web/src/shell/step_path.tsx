import { useEffect, useRef } from 'preact/hooks';
import type { JobFile, WaitsFor } from '../api/schema';
import { assessment, jobFile } from '../state/job';
import { words } from '../words';

/** The way of a job, in its order; the same place on every screen. */
export const STEPS = [
  'limits',
  'look',
  'before',
  'verdict',
  'mount',
  'plan',
  'cut',
  'finish',
  'after',
  'refit',
  'record',
] as const;
export type Step = (typeof STEPS)[number];

const STEP_WAITED_FOR: Record<WaitsFor, Step | null> = {
  limits: 'limits',
  findings: 'look',
  readings: 'before',
  decision: 'verdict',
  mount: 'mount',
  plan: 'plan',
  cut: 'cut',
  finish: 'finish',
  readings_after: 'after',
  refit: 'refit',
  seal: 'record',
  nothing: null,
};

/**
 * Pages of a job that lie beside the path: where it came from and what pulsates, what is read on the car, what the
 * readings after the cut say, what they change on the road, a cut whose passes are only written down, and whether one
 * will sing.
 */
export type Aside = 'arrival' | 'detective' | 'car' | 'check' | 'by_hand' | 'road' | 'chatter';
const BELONGS_TO: Record<string, Step> = {
  car: 'before',
  check: 'after',
  by_hand: 'cut',
  road: 'refit',
  chatter: 'plan',
};

/** Which step of the path a page belongs to; null for a page that is not a job's. */
export function stepOf(page: string): Step | 'arrival' | null {
  if (page === 'arrival' || page === 'detective') return 'arrival';
  return BELONGS_TO[page] ?? STEPS.find((step) => step === page) ?? null;
}

export const stepAddress = (number: number | undefined, step: Step | Aside) => `/jobs/${number ?? ''}/${step}`;

/** The step that a job waits at. */
export const stepFor = (waitsFor: WaitsFor): Step => STEP_WAITED_FOR[waitsFor] ?? 'record';

/** Whether a step that lies behind the job was never taken, as a cut that was not needed. */
export function passedOver(file: JobFile, step: Step): boolean {
  const nothingOf = {
    mount: file.mounts.length === 0,
    plan: file.cut_plans.length === 0,
    cut: file.cuts.length === 0,
    finish: !file.bench_steps.some((one) => one.phase === 'finish'),
    after: file.cuts.length === 0,
    refit: file.refits.length === 0,
  };
  return step in nothingOf && nothingOf[step as keyof typeof nothingOf];
}

export function StepPath({ current }: { current: Step | 'arrival' }) {
  const file = jobFile.value;
  const number = file?.job.number;
  const waitedFor = STEP_WAITED_FOR[assessment.value?.waits_for ?? 'limits'];
  const reached = waitedFor ? STEPS.indexOf(waitedFor) : STEPS.length;
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    const here = list.current?.querySelector<HTMLElement>('[aria-current]')?.parentElement;
    if (list.current && here) list.current.scrollLeft = here.offsetLeft - list.current.clientWidth / 2;
  }, [current]);
  return (
    <nav class="path" aria-label={words.shell.steps}>
      <ol ref={list}>
        {STEPS.map((step, i) => {
          const past = i < reached;
          const over = past && file !== null && passedOver(file, step);
          return (
            <li key={step} class={past ? 'path-done' : ''}>
              <a href={stepAddress(number, step)} aria-current={step === current ? 'step' : undefined}>
                <span class="path-mark" aria-hidden="true">
                  {over ? '–' : past ? '✓' : i + 1}
                </span>
                <span class="path-word">{words.shell.step[step]}</span>
                {past && <span class="heard">, {over ? words.shell.stepPassedOver : words.shell.stepDone}</span>}
              </a>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}
