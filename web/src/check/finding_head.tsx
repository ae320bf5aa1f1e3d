import { percent } from '../show/length';
import { words } from '../words';

/** What something probably is, with its probability as a number and a bar. */
export function FindingHead({ name, p }: { name: string; p: number }) {
  return (
    <>
      <p class="finding-head">
        <span class="finding-name">{name}</span>
        <span class="figures">{words.dials.p_of(percent(p))}</span>
      </p>
      <svg class="probability" width="100%" height="8" aria-hidden="true">
        <rect x="0" y="0" width="100%" height="8" class="probability-track" />
        <rect x="0" y="0" width={`${100 * p}%`} height="8" class="probability-fill" />
      </svg>
    </>
  );
}
