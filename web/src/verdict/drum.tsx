import type { Part, Unit } from '../api/schema';
import { Opens } from '../controls/opens';
import type { Contact } from '../pictures/drum_geometry';
import { DrumProfile } from '../pictures/drum_profile';
import { EdgeScale, type ScaleRung, type ScaleZone } from '../pictures/edge_scale';
import { ProbabilityTrack } from '../pictures/probability_bar';
import { Ring } from '../pictures/ring';
import { ShoeContact } from '../pictures/shoe_contact';
import type { Dials } from '../show/dials';
import { digitsOfMm, type HowShown, lengthOfMm, percent } from '../show/length';
import { onRadius } from '../show/on_radius';
import { wearRange } from '../show/wear';
import { assessmentOf, planOf } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { actionOf, type DrumsAnswer, type DrumVerdict } from './answer';
import { Behind } from './behind';
import { ringOf } from './diameters';
import { otherUnit } from './rotor';

interface Props {
  part: Part;
  found: DrumVerdict;
  dials: Dials;
  unit: Unit;
  /** The word for the axle; a drum that differs says its own. */
  axle: string;
}

const FINE = 1000;
const USUAL_ARC_DEG = 120;

const fine = (unit: Unit): HowShown => ({ unit, resolution_nm: unit === 'mm' ? FINE : 2540 });

/** One drum of the axle: what the cut takes on the radius and on the diameter, what shape it has, and what is left. */
export function Drum({ part, found, dials, unit, axle }: Props) {
  const { verdict } = words;
  const action = actionOf(found.action);
  const cuts = action === 'cut' || actionOf(axle) === 'cut';
  const how = fine(unit);
  const band = part.band_width?.nm ? part.band_width.nm / 1e6 : null;
  return (
    <section class="rotor" aria-label={verdict.rotor[part.side]}>
      <h2>
        {verdict.rotor[part.side]}
        {found.action === axle ? null : <span class="soft"> · {verdict.actions[action]}</span>}
      </h2>
      {cuts && found.marks > 0 ? <Depth found={found} dials={dials} unit={unit} /> : null}
      <Scale part={part} found={found} cuts={cuts} how={how} />
      <LeftOver part={part} found={found} cuts={cuts} how={how} />
      <Chances part={part} found={found} cuts={cuts} />
      <SeenInto part={part} found={found} how={how} />
      <DrumProfile depths={found.depths} band_mm={band} how={how} />
      <Shoe part={part} found={found} cuts={cuts} how={how} />
      <Opens title={verdict.working}>
        <Working found={found} cuts={cuts} how={how} />
      </Opens>
    </section>
  );
}

/** The least cut: the depth on the radius in marks of the dial, and beside it what the diameter changes by. */
function Depth({ found, dials, unit }: Pick<Props, 'found' | 'dials' | 'unit'>) {
  const { verdict } = words;
  const both = (um: number) => (
    <span class="figures small">
      {lengthOfMm(um / 1000, fine(unit))}
      <span class="soft"> = {lengthOfMm(um / 1000, fine(otherUnit(unit)))}</span>
    </span>
  );
  const radius_um = found.marks * dials.outboard_um;
  return (
    <fieldset class="dials" aria-label={verdict.cut_plan}>
      <div class="dial">
        <span class="soft small">{verdict.drum.depth}</span>
        <span class="dial-marks figures">
          {found.marks}
          <span class="dial-word"> {verdict.marks(found.marks)}</span>
        </span>
        {both(radius_um)}
      </div>
      <div class="dial">
        <span class="soft small">{verdict.drum.change}</span>
        <span class="dial-marks figures">{digitsOfMm((2 * radius_um) / 1000, fine(unit))}</span>
        {both(2 * radius_um)}
      </div>
    </fieldset>
  );
}

interface Seen {
  part: Part;
  found: DrumVerdict;
  /** Whether a cut is looked at, or the drum as it is. */
  cuts: boolean;
  how: HowShown;
}

const BEYOND_MM = 100;
const mmOf = (part: Part, name: 'nominal' | 'discard') => {
  const nm = part.limits[name]?.value.nm;
  return nm === undefined ? null : nm / 1e6;
};

/** Diameters to scale, larger downward: what has gone, what the cut takes, and the limits. */
function Scale({ part, found, cuts, how }: Seen) {
  const { scale } = words.verdict;
  const now = found.max_mm;
  const after = cuts && found.marks > 0 ? found.final_mm : null;
  const nominal = mmOf(part, 'nominal');
  const rung = (name: string, mm: number | null, label: string, kind: ScaleRung['kind']): ScaleRung[] =>
    mm === null ? [] : [{ name, mm: -mm, label, digits: lengthOfMm(mm, how), kind, active: name === 'after' }];
  const rungs = [
    ...rung('nominal', nominal, scale.new, 'ghost'),
    ...rung('now', now, scale.now, 'surface'),
    ...rung('after', after, scale.after, 'surface'),
    ...rung(
      'machine_to',
      found.machine_to?.value_mm ?? null,
      found.machine_to_is_house_rule ? words.verdict.house_machine_to : scale.machine_to,
      'machine_to',
    ),
    ...rung('discard', mmOf(part, 'discard'), scale.discard, 'discard'),
  ];
  const solid = after ?? now;
  const zones: ScaleZone[] = [
    { from_mm: -solid - BEYOND_MM, to_mm: -solid, look: 'metal' },
    ...(after === null ? [] : [{ from_mm: -after, to_mm: -now, look: 'off' as const }]),
    ...(nominal === null ? [] : [{ from_mm: -now, to_mm: -nominal, look: 'gone' as const }]),
  ];
  const likely = found.true_final_mm;
  return (
    <figure class="part-scale">
      <EdgeScale
        summary={`${scale.title}. ${rungs.map((one) => `${one.label}: ${one.digits}`).join('; ')}.`}
        rungs={rungs}
        zones={zones}
        band_mm={after === null ? undefined : { low: -likely.high95, high: -likely.low95 }}
        whole_mm={null}
      />
    </figure>
  );
}

function LeftOver({ part, found, cuts, how }: Seen) {
  const { verdict } = words;
  const at_mm = cuts && found.marks > 0 ? found.final_mm : found.max_mm;
  const to = (limit_mm: number | null | undefined, underWord: string, overWord: string) =>
    limit_mm == null ? null : (
      <li>
        <span class="figures figure">{digitsOfMm(Math.abs(limit_mm - at_mm), how)}</span>{' '}
        <span class="figures">{how.unit}</span> <span class="soft">{limit_mm < at_mm ? overWord : underWord}</span>
      </li>
    );
  const room = cuts ? found.wear_room_cut : found.wear_room_uncut;
  return (
    <ul class="left-over">
      {cuts ? to(found.machine_to?.value_mm, verdict.over_machine_to, verdict.under_machine_to) : null}
      {to(mmOf(part, 'discard'), verdict.over_discard, verdict.under_discard)}
      {found.machine_to ? null : <li>{verdict.no_machine_to}</li>}
      {room ? (
        <li>
          {verdict.wear_room}, {cuts ? verdict.wear_after_cut : verdict.wear_as_is}: {wearRange(room)}
        </li>
      ) : null}
      {cuts && found.runout_assumed ? <li class="small soft">{verdict.runout_assumed}</li> : null}
    </ul>
  );
}

/** Each limit with the probability that it is kept. */
function Chances({ found, cuts }: Pick<Seen, 'part' | 'found' | 'cuts'>) {
  const { verdict } = words;
  const { figures, drum } = verdict;
  const confidence = shop.value?.settings.confidence ?? 0.95;
  const rows = [
    { name: figures.p_variation, p: found.p_out_of_round_within },
    { name: drum.p_taper, p: found.p_taper_within },
    { name: figures.p_scoring, p: found.p_scoring_within },
    { name: figures.p_discard, p: found.p_under_discard },
    ...(cuts && found.marks > 0
      ? [
          { name: figures.p_final, p: found.p_final_within_machine_to },
          { name: drum.p_final_discard, p: found.p_final_under_discard },
        ]
      : []),
  ].flatMap(({ name, p }) => (p === null || p === undefined ? [] : [{ name, p }]));
  if (rows.length === 0) return null;
  return (
    <div class="chances">
      {rows.map(({ name, p }) => (
        <div key={name} class="chance">
          <p class="small">
            {name} <span class="figures">{percent(p)}</span>
          </p>
          <ProbabilityTrack p={p} confidence={confidence} />
        </div>
      ))}
    </div>
  );
}

/** The diameters as they are judged, the drum seen into, with the out-of-round of each depth. */
function SeenInto({ part, found, how }: Omit<Seen, 'cuts'>) {
  const { measure, verdict } = words;
  const plan = planOf(part, 'before');
  const points = plan ? ringOf(assessmentOf(part)?.before.diameter ?? null, plan.points) : [];
  const values = points.flatMap((one) => (one.value_mm === null ? [] : [one.value_mm]));
  if (!plan || values.length === 0) return null;
  const limit = part.limits.out_of_round?.value.nm;
  const span = limit ? limit / 2e6 : Math.max(...values.map((mm) => Math.abs(mm - found.mean_mm)), 0.01);
  const widest = [...points].sort((a, b) => (b.value_mm ?? 0) - (a.value_mm ?? 0))[0] ?? null;
  const depth_how = { unit: how.unit, resolution_nm: how.unit === 'mm' ? 1_000_000 : 1_270_000 } as const;
  return (
    <div class="drum-readings">
      <Ring
        across
        name={measure.ring.name(measure.tab.diameter)}
        points={points}
        circles={found.depths.length}
        turning={plan.turning}
        meaning={measure.ring.diameter}
        middle_mm={found.mean_mm}
        span_mm={span}
        how={how}
        lowest={widest}
      />
      <dl class="sums" aria-label={verdict.drum.per_depth}>
        {found.depths.map((one) => (
          <div key={one.depth_mm}>
            <dt>
              {verdict.figures.variation}, {verdict.drum.at_depth(lengthOfMm(one.depth_mm, depth_how))}
            </dt>
            <dd class="figures">{lengthOfMm(one.out_of_round_mm, how)}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
}

const CONTACTS: Record<string, Contact> = { full: 'full', 'mid-shoe': 'mid_shoe', 'heel and toe': 'heel_and_toe' };

function Shoe({ part, found, cuts, how }: Seen) {
  const { drum } = words.verdict;
  const after = cuts && found.marks > 0;
  const shoe = after ? found.shoe_after : found.shoe_before;
  const contact = shoe ? CONTACTS[shoe.contact] : undefined;
  if (!shoe || !contact) return null;
  return (
    <div>
      <h3>{after ? drum.shoe_after : drum.shoe_before}</h3>
      <ShoeContact contact={contact} gap_um={shoe.gap_um} arc_deg={part.lining_arc_deg ?? USUAL_ARC_DEG} how={how} />
    </div>
  );
}

/** The sum by hand, every figure and every reason. */
function Working({ found, cuts, how }: Omit<Seen, 'part'>) {
  const { verdict } = words;
  const { figures, drum, formula } = verdict;
  const mm = (value: number) => lengthOfMm(value, how);
  const spread = found.true_out_of_round_mm;
  const rows: [string, string][] = [
    [figures.min, mm(found.max_mm)],
    [figures.mean, mm(found.mean_mm)],
    [figures.variation, mm(found.out_of_round_mm)],
    [figures.true_variation, `${digitsOfMm(spread.low95, how)} … ${digitsOfMm(spread.high95, how)} ${how.unit}`],
    [drum.taper, lengthOfMm(found.taper_mm, { ...how, sign: true })],
    ...(found.barrel_mm > 0 ? ([[drum.barrel, mm(found.barrel_mm)]] as [string, string][]) : []),
  ];
  return (
    <>
      {cuts && found.marks > 0 ? (
        <>
          <h3>{verdict.working_formula}</h3>
          <p class="figures by-hand">
            {digitsOfMm(found.final_mm - found.marks_on_diameter_um / 1000, how)} + 2 ·{' '}
            {digitsOfMm(found.marks_on_radius_um / 1000, how)} = {mm(found.final_mm)}
          </p>
          <p class="small soft">
            {formula.now} + {formula.cut} = {formula.after}. {formula.because_wobble}
          </p>
        </>
      ) : null}
      <Behind rows={rows} reasons={found.reasons} />
    </>
  );
}

interface OneSizeProps {
  parts: readonly Part[];
  pair: NonNullable<DrumsAnswer['pair']>;
  unit: Unit;
}

/** Both drums of the axle to the size of the larger cut, and what that costs the other one. */
export function OneSize({ parts, pair, unit }: OneSizeProps) {
  const { verdict } = words;
  const how = fine(unit);
  return (
    <section class="one-size" aria-label={verdict.drum.one_size}>
      <h2>{verdict.drum.one_size}</h2>
      <p>{verdict.drum.one_size_lead(lengthOfMm(pair.final_mm, how))}</p>
      <ul>
        {parts.map((part, i) => {
          const um = pair.extra_um[i] ?? 0;
          const name = verdict.rotor[part.side];
          return (
            <li key={part.id} class="figures">
              {um < 0.5 ? verdict.drum.extra_none(name) : verdict.drum.extra(name, onRadius(um, how))}
            </li>
          );
        })}
      </ul>
      {pair.p_within === null ? null : <p class="small">{verdict.drum.one_size_p(percent(pair.p_within))}</p>}
    </section>
  );
}
