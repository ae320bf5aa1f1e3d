import { TroubleLine } from '../controls/trouble_line';
import type { Act } from './model';
import type { AtBench } from './use_run';

/** What the bench did not let happen, beside where it was tried. */
export function RefusedLine({ at, of }: { at: AtBench; of: readonly Act['do'][] }) {
  const { refusal } = at;
  return <TroubleLine text={refusal && !refusal.anywhere && of.includes(refusal.act.do) ? refusal.message : null} />;
}

/** What has to be seen on whatever stage one stands: a stop that was refused, or another tablet's hand. */
export function RefusedAnywhere({ at }: { at: AtBench }) {
  return <TroubleLine text={at.refusal?.anywhere ? at.refusal.message : null} />;
}
