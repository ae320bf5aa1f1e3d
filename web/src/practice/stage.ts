import type { BenchView } from './model';

/** Where one stands at the bench. None is forced: each can be gone to at any time. */
export type BenchStage = 'measure' | 'decide' | 'mount' | 'cut' | 'after';
export const STAGES: readonly BenchStage[] = ['measure', 'decide', 'mount', 'cut', 'after'];

type Standing = Pick<BenchView, 'decided' | 'mounted' | 'passes' | 'rpm' | 'refitted'>;

/** The stage that a run has come to by what was done. */
export function stageOf(view: Standing): BenchStage {
  if (view.rpm > 0) return 'cut';
  if (view.refitted) return 'after';
  if (!view.decided) return 'measure';
  if (view.decided !== 'cut') return 'after';
  if (view.mounted.length > 0) return 'cut';
  return view.passes > 0 ? 'after' : 'mount';
}

/** The stage after this one, for the way on; null at the last. */
export function stageAfter(stage: BenchStage, decided: BenchView['decided']): BenchStage | null {
  if (stage === 'decide' && decided && decided !== 'cut') return 'after';
  const at = STAGES.indexOf(stage);
  return STAGES[at + 1] ?? null;
}
