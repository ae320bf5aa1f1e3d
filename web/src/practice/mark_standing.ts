import type { PracticeRun } from './model';

/** Where the mark of an ended run stands: there, never to come, on its way, or not to be had from the shop. */
export type MarkStanding = 'marked' | 'given_up' | 'counting' | 'unread';

export function markStanding(run: Pick<PracticeRun, 'view' | 'mark'>, unread: boolean): MarkStanding {
  if (run.mark) return 'marked';
  if (run.view.ended?.code === 'given_up') return 'given_up';
  return unread ? 'unread' : 'counting';
}
