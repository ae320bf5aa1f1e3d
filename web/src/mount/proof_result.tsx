import type { MountProof } from '../api/schema';
import { angle, lengthOfMm } from '../show/length';
import { shop } from '../state/shop';
import { words } from '../words';
import { adviceOf, costOf, type ProofFigures } from './proof_advice';

export const figuresOf = (proof: MountProof): ProofFigures => ({
  runout_um: proof.runout_um,
  upper_bound: proof.upper_bound,
  part_um: proof.part_runout_um ?? null,
  part_deg: proof.part_high_deg ?? null,
  mount_um: proof.mount_runout_um ?? null,
  mount_deg: proof.mount_high_deg ?? null,
});

/** A runout in the shop's unit, to a micrometre or a ten-thousandth of an inch. */
export function runoutText(um: number): string {
  const unit = shop.value?.settings.default_unit ?? 'mm';
  return lengthOfMm(um / 1000, { unit, resolution_nm: unit === 'mm' ? 1000 : 2540 });
}

interface Props {
  figures: ProofFigures;
  allowed_um: number;
  /** One scratch alone is there so far. */
  oneMark: boolean;
}

/** What a proof says: how much, whose it is, what it would cost, and what to do next. */
export function ProofResult({ figures, allowed_um, oneMark }: Props) {
  const { proof } = words.mount;
  const advice = adviceOf(figures, allowed_um);
  const most = Math.max(figures.part_um ?? 0, figures.mount_um ?? 0, allowed_um);
  return (
    <section class={`proof-result proof-${advice}`} aria-label={proof.result} role="status">
      <p class="soft">
        {proof.result}
        {figures.upper_bound ? `, ${proof.at_most}` : ''}
      </p>
      <p class="proof-figure figures">{runoutText(figures.runout_um)}</p>
      <p class="proof-advice">{proof.advice[advice]}</p>
      {figures.part_um !== null && figures.mount_um !== null ? (
        <dl class="shares">
          <Share name={proof.share_rotor} um={figures.part_um} deg={figures.part_deg} {...{ most, allowed_um }} />
          <Share name={proof.share_mount} um={figures.mount_um} deg={figures.mount_deg} {...{ most, allowed_um }} />
        </dl>
      ) : null}
      {oneMark ? <p class="doubt">{proof.one_mark}</p> : null}
      <p>{proof.costs(runoutText(costOf(figures)))}</p>
      <p class="small soft">{proof.rule(runoutText(allowed_um), shop.value?.settings.cutting?.mount_basis ?? '')}</p>
    </section>
  );
}

interface ShareProps {
  name: string;
  um: number;
  deg: number | null;
  most: number;
  allowed_um: number;
}

function Share({ name, um, deg, most, allowed_um }: ShareProps) {
  return (
    <div class="share">
      <dt>{name}</dt>
      <dd class="share-bar" aria-hidden="true">
        <span class="share-fill" style={{ width: `${(100 * um) / most}%` }} />
        <span class="share-limit" style={{ left: `${(100 * allowed_um) / most}%` }} />
      </dd>
      <dd class="figures">
        {runoutText(um)}
        {deg === null ? '' : `, ${words.mount.proof.high(angle(Math.round(deg)))}`}
      </dd>
    </div>
  );
}
