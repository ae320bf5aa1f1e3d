import type { WaitsFor } from '../api/schema';
import { assessment, jobFile } from '../state/job';
import { words } from '../words';

/** The way of a job, in its order; the same place on every screen. */
export const STEPS = ['limits', 'look', 'before', 'verdict', 'cut', 'after', 'record'] as const;
export type Step = (typeof STEPS)[number];

const STEP_WAITED_FOR: Record<WaitsFor, number> = {
  limits: 0,
  findings: 1,
  readings: 2,
  decision: 3,
  cut: 4,
  readings_after: 5,
  seal: 6,
  nothing: STEPS.length,
};

/** Pages of a job that lie beside the path: where it came from, and what the readings after the cut say. */
export type Aside = 'arrival' | 'check';

/** Which step of the path a page belongs to; null for a page that is not a job's. */
export function stepOf(page: string): Step | 'arrival' | null {
  if (page === 'arrival') return page;
  return page === 'check' ? 'after' : (STEPS.find((step) => step === page) ?? null);
}

export const stepAddress = (number: number | undefined, step: Step | Aside) => `/jobs/${number ?? ''}/${step}`;

/** The step that a job waits at. */
export const stepFor = (waitsFor: WaitsFor): Step => STEPS[STEP_WAITED_FOR[waitsFor]] ?? 'record';

export function StepPath({ current }: { current: Step | 'arrival' }) {
  const number = jobFile.value?.job.number;
  const reached = STEP_WAITED_FOR[assessment.value?.waits_for ?? 'limits'];
  const uncut = jobFile.value?.cuts.length === 0;
  return (
    <nav class="path" aria-label={words.shell.steps}>
      <ol>
        {STEPS.map((step, i) => {
          const past = i < reached;
          const passedOver = past && uncut && (step === 'cut' || step === 'after');
          return (
            <li key={step} class={past ? 'path-done' : ''}>
              <a href={stepAddress(number, step)} aria-current={step === current ? 'step' : undefined}>
                <span class="path-mark" aria-hidden="true">
                  {passedOver ? '–' : past ? '✓' : i + 1}
                </span>
                <span class="path-word">{words.shell.step[step]}</span>
                {past && <span class="heard">, {passedOver ? words.shell.stepPassedOver : words.shell.stepDone}</span>}
              </a>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}
