import type { ComponentChildren } from 'preact';
import { ProbabilityTrack, type Standing, StandingMark, standingOf } from '../pictures/probability_bar';
import { angle, digitsOfMm, type HowShown, lengthOfMm, percent } from '../show/length';
import { assessmentOf } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { type CircleAnswer, circleAnswer, type ThicknessAnswer, thicknessAnswer } from './answers';
import { how, part, plan, stage, tab } from './at_bench';
import { drumAnswer } from './drum_answer';
import { OfDrum } from './drum_numbers';
import type { WorkingName } from './working';

interface NumbersProps {
  /** What the shop makes of the round on the car. */
  on_car: CircleAnswer | null;
  onOpen: (name: WorkingName) => void;
}

/** What the readings say so far; each line opens into its working. */
export function Numbers({ on_car, onOpen }: NumbersProps) {
  const here = part.value;
  const answered = here ? assessmentOf(here) : null;
  const thickness = tab.value.name === 'thickness' ? thicknessAnswer(answered, stage.value) : null;
  const circle = circleAnswer(answered, stage.value, tab.value.name, on_car);
  const drum = tab.value.name === 'diameter' ? drumAnswer.value : null;
  if (!tab.value.round) return null;
  return (
    <section class="numbers" aria-label={words.measure.numbers.title}>
      {thickness && <OfThickness answer={thickness} onOpen={onOpen} />}
      {circle && <OfRunout answer={circle} onOpen={onOpen} />}
      {drum && <OfDrum answer={drum} onOpen={onOpen} />}
      {!thickness && !circle && !drum && <p class="soft">{words.measure.numbers.none}</p>}
    </section>
  );
}

interface LineProps {
  name: WorkingName;
  label: string;
  value: ComponentChildren;
  note?: ComponentChildren;
  onOpen: (name: WorkingName) => void;
}

export function Line({ name, label, value, note, onOpen }: LineProps) {
  return (
    <button type="button" class="number" onClick={() => onOpen(name)}>
      <span class="number-label">{label}</span>
      <span class="number-value digits">{value}</span>
      {note && <span class="number-note small soft">{note}</span>}
      <span class="heard">, {words.shell.working}</span>
    </button>
  );
}

/** A mean knows a place more than a single reading does. */
export const finer = (shown: HowShown): HowShown => ({ ...shown, resolution_nm: shown.resolution_nm / 10 });

function overWhat(min_mm: number, shown: HowShown): string {
  const limits = part.value?.limits;
  const limit = limits?.machine_to ?? limits?.discard;
  if (!limit || limit.value.nm === undefined) return '';
  const name = limits?.machine_to ? words.trade.limit.machine_to : words.trade.limit.discard;
  const over = min_mm - limit.value.nm / 1e6;
  const text = lengthOfMm(Math.abs(over), shown);
  return over >= 0 ? words.measure.numbers.over(text, name) : words.measure.numbers.under(text, name);
}

export function limitWords(nm: number | undefined, shown: HowShown): string {
  return nm === undefined ? words.measure.numbers.noLimit : words.measure.numbers.limit(lengthOfMm(nm / 1e6, shown));
}

export function micrometerDecides(
  answer: ThicknessAnswer,
  confidence: number,
): { word: string; standing: Standing | null } {
  const p = answer.p_variation_within;
  if (p === undefined || p === null) return { word: words.measure.numbers.decidesNot, standing: null };
  const standing = standingOf(p, confidence);
  const { decidesYes, decidesNo, decidesNotYet } = words.measure.numbers;
  if (standing !== 'cannot tell') return { word: decidesYes, standing };
  const tooCoarse = answer.advice.some((one) => one.code === 'instrument_too_coarse');
  return { word: tooCoarse ? decidesNo : decidesNotYet, standing };
}

/** In the list of orders that people say: "4 and 8 times". */
export function ordersInWords(orders: readonly number[]): string {
  if (orders.length === 0) return words.measure.numbers.blindNone;
  const last = orders.at(-1);
  const all = orders.length > 1 ? `${orders.slice(0, -1).join(', ')} and ${last}` : `${last}`;
  return words.measure.numbers.blindTo(`${all} ${words.measure.numbers.times}`);
}

function OfThickness({ answer, onOpen }: { answer: ThicknessAnswer; onOpen: (name: WorkingName) => void }) {
  const shown = how.value;
  const { numbers } = words.measure;
  const confidence = shop.value?.settings.confidence ?? 0.95;
  const decides = micrometerDecides(answer, confidence);
  const points = plan.value?.points ?? 1;
  const at = Math.round((answer.min_angle_deg / 360) * points) % points;
  const once = answer.harmonics.find((one) => one.order === 1);
  const twice = answer.harmonics.find((one) => one.order === 2);
  const wave = (um: number) => lengthOfMm((2 * um) / 1000, shown);
  const truly = answer.true_variation_mm;
  return (
    <>
      <Line
        name="lowest"
        label={numbers.lowest}
        value={lengthOfMm(answer.min_mm, shown)}
        note={[numbers.atPoint(at + 1), overWhat(answer.min_mm, shown)].filter(Boolean).join(', ')}
        onOpen={onOpen}
      />
      <Line
        name="variation"
        label={numbers.variation}
        value={lengthOfMm(answer.variation_mm, shown)}
        note={limitWords(part.value?.limits.variation?.value.nm, shown)}
        onOpen={onOpen}
      />
      <Line
        name="probable"
        label={numbers.trueVariation}
        value={numbers.between(digitsOfMm(truly.low95, shown), lengthOfMm(truly.high95, shown))}
        note={
          decides.standing && (
            <span class="number-standing">
              <StandingMark standing={decides.standing} /> {words.pictures.standing[decides.standing]},{' '}
              {percent(answer.p_variation_within ?? 0)}
              <ProbabilityTrack p={answer.p_variation_within ?? 0} confidence={confidence} />
            </span>
          )
        }
        onOpen={onOpen}
      />
      <Line
        name="decides"
        label={numbers.decides}
        value={<span class="number-words">{decides.word}</span>}
        onOpen={onOpen}
      />
      <Line name="mean" label={numbers.mean} value={lengthOfMm(answer.mean_mm, finer(shown))} onOpen={onOpen} />
      {(plan.value?.circles_from_edge_nm.length ?? 1) > 1 && (
        <Line
          name="taper"
          label={numbers.taper}
          value={lengthOfMm(answer.taper_mm, { ...shown, sign: true })}
          onOpen={onOpen}
        />
      )}
      {once && (
        <Line
          name="patterns"
          label={numbers.patterns}
          value={wave(once.amplitude_um)}
          note={twice ? numbers.twice(wave(twice.amplitude_um)) : ''}
          onOpen={onOpen}
        />
      )}
      <Line
        name="blind"
        label={numbers.blind}
        value={<span class="number-words">{ordersInWords(answer.blind_orders)}</span>}
        onOpen={onOpen}
      />
      <Line
        name="temperature"
        label={numbers.temperature}
        value={lengthOfMm(answer.temperature_shift_mm, { ...finer(shown), sign: true })}
        onOpen={onOpen}
      />
    </>
  );
}

function OfRunout({ answer, onOpen }: { answer: CircleAnswer; onOpen: (name: WorkingName) => void }) {
  const shown = how.value;
  const { numbers } = words.measure;
  const once = answer.harmonics.find((one) => one.order === 1);
  const twice = answer.harmonics.find((one) => one.order === 2);
  const um = (value: number) => lengthOfMm(value / 1000, shown);
  return (
    <>
      <Line
        name="runout"
        label={numbers.runout}
        value={um(answer.range_um)}
        note={limitWords(part.value?.limits.runout?.value.nm, shown)}
        onOpen={onOpen}
      />
      {once && (
        <Line
          name="patterns"
          label={numbers.patterns}
          value={um(2 * once.amplitude_um)}
          note={[
            numbers.high(angle(Math.round(once.phase_deg))),
            twice ? numbers.twice(um(2 * twice.amplitude_um)) : '',
          ]
            .filter(Boolean)
            .join(', ')}
          onOpen={onOpen}
        />
      )}
      <Line
        name="blind"
        label={numbers.blind}
        value={<span class="number-words">{ordersInWords(answer.blind_orders)}</span>}
        onOpen={onOpen}
      />
    </>
  );
}
