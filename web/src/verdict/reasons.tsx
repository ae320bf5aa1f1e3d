import { percent } from '../show/length';
import { typeset } from '../show/typeset';
import { words } from '../words';
import type { Reason } from './answer';

/** Sentences that can be checked by hand, each with its probability and the source of its limit. */
export function ReasonList({ reasons }: { reasons: readonly Reason[] }) {
  return (
    <ol class="reasons">
      {reasons.map((reason) => (
        <li key={`${reason.part ?? ''}${reason.code}`}>
          <p>{typeset(reason.text)}</p>
          <p class="small soft">
            {reason.p == null ? '' : `${percent(reason.p)} · `}
            {reason.source ? `${words.verdict.source}: ${reason.source}` : ''}
          </p>
        </li>
      ))}
    </ol>
  );
}
