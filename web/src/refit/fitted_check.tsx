import type { JobFile, Part, RefitAdvice } from '../api/schema';
import { counts, meanAt, shownReadings } from '../measure/shown';
import type { Slot } from '../measure/slots';
import { digitsOfMm, lengthOfMm } from '../show/length';
import { outbox } from '../state/connection';
import { planOf } from '../state/job';
import { words } from '../words';
import { ofThisFitting } from './bench';
import type { Choosing } from './choice';
import { howRunout } from './how_it_goes_on';

/** Highest less lowest of the points that are read with the part in this position, since it went back on its hub. */
export function fittedRunout(file: JobFile, part: Part, position: number) {
  const read = ofThisFitting(file, part, shownReadings(file, outbox.entries.value, part.id, 'refit'));
  const shown = read.filter(
    (one) => counts(one) && one.slot.quantity === 'runout_outboard' && one.slot.circle === position,
  );
  const points = [...new Set(shown.map((one) => one.slot.point))];
  const means = points.flatMap((point) => {
    const slot: Slot = { quantity: 'runout_outboard', circle: position, point };
    return meanAt(shown, slot) ?? [];
  });
  const runout_mm = means.length > 1 ? (Math.max(...means) - Math.min(...means)) / 1e6 : null;
  const wanted = (planOf(part, 'refit') ?? planOf(part, 'on_car') ?? planOf(part, 'before'))?.points ?? points.length;
  return { read: points.length, wanted, runout_mm, text: runout_mm === null ? '' : lengthOfMm(runout_mm, howRunout()) };
}

export const runoutLimit = (advice: RefitAdvice | null): number | null => advice?.limit?.value_mm ?? null;

interface Props {
  file: JobFile;
  part: Part;
  advice: RefitAdvice | null;
  choosing: Choosing;
}

/** What was read as fitted, against what was foreseen and the limit. */
export function CheckedAgainst({ file, part, advice, choosing }: Props) {
  const { check } = words.refit;
  const { runout_mm, read, wanted } = fittedRunout(file, part, choosing.chosen.position);
  if (runout_mm === null) return null;
  const how = howRunout();
  const told = file.refits.filter((one) => one.part_id === part.id).at(-1);
  const limit_mm = runoutLimit(advice);
  const strange = told?.foreseen_runout_um != null && runout_mm * 1000 > STRANGE * told.foreseen_runout_um + SLACK_UM;
  return (
    <section class="refit-checked" aria-label={check.read}>
      <p class="guide-big">
        <span class="guide-figure figures">{digitsOfMm(runout_mm, how)}</span>{' '}
        <span class="guide-unit">
          {how.unit}, {check.read}
        </span>
      </p>
      {read < wanted ? <p class="attention">{check.points(read, wanted)}</p> : null}
      {told?.foreseen_runout_um == null ? null : (
        <p class="guide-note">{check.against(lengthOfMm(told.foreseen_runout_um / 1000, how))}</p>
      )}
      <p class="guide-note">
        {limit_mm === null
          ? check.none
          : `${words.refit.limit(lengthOfMm(limit_mm, how), advice?.limit?.source ?? '')}. ${runout_mm > limit_mm ? check.over : check.within}`}
      </p>
      {strange ? <p class="doubt">{check.strange}</p> : null}
    </section>
  );
}

/** Twice what was foreseen, and more than an indicator's own play: our own, no source. */
const STRANGE = 2;
const SLACK_UM = 10;
