import { TroubleLine } from '../controls/trouble_line';
import type { Act } from './model';
import type { AtBench } from './use_run';

/** What the bench did not let happen, beside where it was tried. */
export function RefusedLine({ at, of }: { at: AtBench; of: readonly Act['do'][] }) {
  const { refusal } = at;
  return <TroubleLine text={refusal && of.includes(refusal.act.do) ? refusal.message : null} />;
}
