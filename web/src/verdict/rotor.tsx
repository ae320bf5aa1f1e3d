import type { Part, Unit } from '../api/schema';
import { Opens } from '../controls/opens';
import { EdgeScale, type ScaleRung, type ScaleZone } from '../pictures/edge_scale';
import type { Dials as DialValues } from '../show/dials';
import { digitsOfMm, lengthOfMm, percent } from '../show/length';
import { wearRange } from '../show/wear';
import { words } from '../words';
import { actionOf, type PartVerdict } from './answer';
import { Behind } from './behind';

interface Props {
  part: Part;
  found: PartVerdict;
  dials: DialValues;
  unit: Unit;
  /** The word for the axle; a rotor that differs says its own. */
  axle: string;
}

interface Seen extends Omit<Props, 'dials' | 'axle'> {
  /** Whether a cut is looked at, or the rotor as it is. */
  cuts: boolean;
}

const FINE = 1000;

/** One rotor of the axle: what the cut takes of each side, what it leaves, and for how long. */
export function Rotor({ part, found, dials, unit, axle }: Props) {
  const { verdict } = words;
  const action = actionOf(found.action);
  const cuts = action === 'cut' || actionOf(axle) === 'cut';
  return (
    <section class="rotor" aria-label={verdict.rotor[part.side]}>
      <h2>
        {verdict.rotor[part.side]}
        {found.action === axle ? null : <span class="soft"> · {verdict.actions[action]}</span>}
      </h2>
      {cuts && found.cleanup ? <Dials found={found} dials={dials} unit={unit} /> : null}
      <PartScale part={part} found={found} cuts={cuts} unit={unit} />
      <LeftOver found={found} cuts={cuts} unit={unit} />
      <Opens title={verdict.working}>
        <Working found={found} cuts={cuts} unit={unit} />
      </Opens>
    </section>
  );
}

export const otherUnit = (unit: Unit): Unit => (unit === 'mm' ? 'in' : 'mm');

/** The least cut, each side in marks of this lathe's dial, and what that is in both units. */
function Dials({ found, dials, unit }: { found: PartVerdict; dials: DialValues; unit: Unit }) {
  const { verdict } = words;
  const { cleanup } = found;
  if (!cleanup) return null;
  const side = (label: string, marks: number, um: number) => (
    <div class="dial">
      <span class="soft small">{label}</span>
      <span class="dial-marks figures">
        {marks}
        <span class="dial-word"> {verdict.marks(marks)}</span>
      </span>
      <span class="figures small">
        {lengthOfMm((marks * um) / 1000, { unit, resolution_nm: FINE })}
        <span class="soft">
          {' '}
          = {lengthOfMm((marks * um) / 1000, { unit: otherUnit(unit), resolution_nm: unit === 'mm' ? 2540 : FINE })}
        </span>
      </span>
    </div>
  );
  return (
    <fieldset class="dials" aria-label={verdict.cut_plan}>
      {side(verdict.outboard, cleanup.outboard_marks, dials.outboard_um)}
      {side(verdict.inboard, cleanup.inboard_marks, dials.inboard_um)}
    </fieldset>
  );
}

function PartScale({ part, found, cuts, unit }: Seen) {
  const { scale } = words.verdict;
  const { limits } = part;
  const how = { unit, resolution_nm: FINE };
  const now = found.thickness.min_mm;
  const after = cuts ? (found.cleanup?.final_whole_marks_mm ?? null) : null;
  const nominal = limits.nominal?.value.nm === undefined ? null : limits.nominal.value.nm / 1e6;
  const discard = limits.discard?.value.nm === undefined ? null : limits.discard.value.nm / 1e6;
  const machineTo = found.machine_to?.value_mm ?? null;
  const rung = (name: string, mm: number | null, label: string, kind: ScaleRung['kind']): ScaleRung[] =>
    mm === null ? [] : [{ name, mm, label, digits: lengthOfMm(mm, how), kind, active: name === 'after' }];
  const rungs = [
    ...rung('nominal', nominal, scale.new, 'ghost'),
    ...rung('now', now, scale.now, 'surface'),
    ...rung('after', after, scale.after, 'surface'),
    ...rung(
      'machine_to',
      machineTo,
      found.machine_to_is_house_rule ? words.verdict.house_machine_to : scale.machine_to,
      'machine_to',
    ),
    ...rung('discard', discard, scale.discard, 'discard'),
  ];
  const solid = after ?? now;
  const zones: ScaleZone[] = [
    { from_mm: 0, to_mm: solid, look: 'metal' },
    ...(after === null ? [] : [{ from_mm: after, to_mm: now, look: 'off' as const }]),
    ...(nominal === null ? [] : [{ from_mm: now, to_mm: nominal, look: 'gone' as const }]),
  ];
  const band =
    after !== null && found.final_mm ? { low: found.final_mm.low95, high: found.final_mm.high95 } : undefined;
  return (
    <figure class="part-scale">
      <EdgeScale
        summary={`${scale.title}. ${rungs.map((one) => `${one.label}: ${one.digits}`).join('; ')}.`}
        rungs={rungs}
        zones={zones}
        band_mm={band}
        whole_mm={nominal ?? Math.max(now, machineTo ?? 0)}
      />
    </figure>
  );
}

function LeftOver({ found, cuts, unit }: { found: PartVerdict; cuts: boolean; unit: Unit }) {
  const { verdict } = words;
  const { cleanup } = found;
  const how = { unit, resolution_nm: FINE };
  const over = (mm: number | null | undefined, overWord: string, underWord: string) =>
    mm == null ? null : (
      <li>
        <span class="figures figure">{digitsOfMm(Math.abs(mm), how)}</span> <span class="figures">{unit}</span>{' '}
        <span class="soft">{mm < 0 ? underWord : overWord}</span>
      </li>
    );
  const room = cuts ? (found.wear_room_cut ?? null) : (found.wear_room_uncut ?? null);
  return (
    <ul class="left-over">
      {cuts ? over(cleanup?.over_machine_to_mm, verdict.over_machine_to, verdict.under_machine_to) : null}
      {cuts ? over(cleanup?.over_discard_mm, verdict.over_discard, verdict.under_discard) : null}
      {found.machine_to ? null : <li>{verdict.no_machine_to}</li>}
      {cuts && cleanup?.cuts_left != null ? <li>{verdict.cuts_left(cleanup.cuts_left)}</li> : null}
      {room ? (
        <li>
          {verdict.wear_room}, {cuts ? verdict.wear_after_cut : verdict.wear_as_is}: {wearRange(room)}
        </li>
      ) : null}
      {cuts && found.runout_assumed ? <li class="small soft">{verdict.runout_assumed}</li> : null}
    </ul>
  );
}

/** The readings, the sum by hand, every probability and every reason. */
function Working({ found, cuts, unit }: Omit<Seen, 'part'>) {
  const { verdict } = words;
  const { figures } = verdict;
  const how = { unit, resolution_nm: FINE };
  const { thickness, cleanup } = found;
  const spread = thickness.true_variation_mm;
  const rows: [string, string][] = [
    [figures.min, lengthOfMm(thickness.min_mm, how)],
    [figures.mean, lengthOfMm(thickness.mean_mm, how)],
    [figures.variation, lengthOfMm(thickness.variation_mm, how)],
  ];
  if (spread) {
    const between = `${digitsOfMm(spread.low95, how)} … ${digitsOfMm(spread.high95, how)} ${unit}`;
    rows.push([figures.true_variation, between]);
  }
  if (found.runout) rows.push([figures.runout, lengthOfMm(found.runout.runout_um / 1000, how)]);
  if (cleanup?.wobble_um !== undefined) rows.push([figures.wobble, lengthOfMm(cleanup.wobble_um / 1000, how)]);
  const chance = (label: string, p: number | null | undefined) => {
    if (p != null) rows.push([label, percent(p)]);
  };
  chance(figures.p_discard, found.p_above_discard);
  chance(figures.p_variation, found.p_variation_within);
  chance(figures.p_runout, found.p_runout_within);
  chance(figures.p_scoring, found.p_scoring_within);
  if (cuts) chance(figures.p_final, found.p_final_over_machine_to);
  const points = thickness.points ?? [];
  return (
    <>
      {cuts && cleanup ? <ByHand found={found} unit={unit} /> : null}
      <Behind rows={rows} reasons={found.reasons}>
        {points.length > 0 ? (
          <>
            <h3>{verdict.working_readings}</h3>
            <p class="figures readings">
              {points.map((point) => digitsOfMm(point.mean_mm, how)).join('  ')} {unit}
            </p>
          </>
        ) : null}
      </Behind>
    </>
  );
}

function ByHand({ found, unit }: { found: PartVerdict; unit: Unit }) {
  const { formula, working_formula } = words.verdict;
  const { cleanup, thickness } = found;
  if (!cleanup) return null;
  const how = { unit, resolution_nm: FINE };
  const start = cleanup.start_min_mm ?? thickness.min_mm;
  const off = start - cleanup.final_whole_marks_mm;
  return (
    <>
      <h3>{working_formula}</h3>
      <p class="figures by-hand">
        {digitsOfMm(start, how)} − {digitsOfMm(off, how)} = {digitsOfMm(cleanup.final_whole_marks_mm, how)} {unit}
      </p>
      <p class="small soft">
        {formula.now} − {formula.cut} = {formula.after}. {formula.because_wobble}
      </p>
    </>
  );
}
