import { DrumProfile } from '../pictures/drum_profile';
import { PerTurn } from '../pictures/per_turn';
import { ProbabilityBar, ProbabilityTrack, StandingMark, standingOf } from '../pictures/probability_bar';
import { digitsOfMm, type HowShown, lengthOfMm, NM_PER_IN, NM_PER_MM, percent } from '../show/length';
import { shop } from '../state/shop';
import { words } from '../words';
import { how, part, spread } from './at_bench';
import type { DrumFigures } from './drum_answer';
import { finer, Line, limitWords } from './numbers';
import { type Sheet, TraceOf, type WorkingName } from './working';

const depthText = (mm: number) => {
  const { unit } = how.value;
  return lengthOfMm(mm, { unit, resolution_nm: unit === 'mm' ? NM_PER_MM : NM_PER_IN / 20 });
};

/** How far the largest diameter is from the limit that comes first. */
function room(max_mm: number, shown: HowShown): string {
  const limits = part.value?.limits;
  const limit = limits?.machine_to ?? limits?.discard;
  if (limit?.value.nm === undefined) return '';
  const name = limits?.machine_to ? words.trade.limit.machine_to : words.trade.limit.discard;
  const left = limit.value.nm / NM_PER_MM - max_mm;
  const text = lengthOfMm(Math.abs(left), shown);
  return left >= 0 ? words.measure.numbers.under(text, name) : words.measure.numbers.over(text, name);
}

function Chance({ p }: { p: number }) {
  const confidence = shop.value?.settings.confidence ?? 0.95;
  const standing = standingOf(p, confidence);
  return (
    <span class="number-standing">
      <StandingMark standing={standing} /> {words.pictures.standing[standing]}, {percent(p)}
      <ProbabilityTrack p={p} confidence={confidence} />
    </span>
  );
}

/** What the diameters say so far: the largest, out-of-round, and the shape along the depth. */
export function OfDrum({ answer, onOpen }: { answer: DrumFigures; onOpen: (name: WorkingName) => void }) {
  const shown = how.value;
  const { numbers } = words.measure;
  const limits = part.value?.limits;
  const { points, over_deg } = spread.value;
  const at = Math.round((answer.max_angle_deg * points) / over_deg) % points;
  const truly = answer.true_out_of_round_mm;
  const worst = worstDepth(answer);
  const twice = worst?.harmonics.find((one) => one.order === 2);
  const place = numbers.atDepth(depthText(answer.max_depth_mm));
  return (
    <>
      <Line
        name="lowest"
        label={numbers.lowest}
        value={lengthOfMm(answer.max_mm, shown)}
        note={[`${numbers.atPoint(at + 1)}, ${place}`, room(answer.max_mm, shown)].filter(Boolean).join('; ')}
        onOpen={onOpen}
      />
      <Line
        name="variation"
        label={numbers.variation}
        value={lengthOfMm(answer.out_of_round_mm, shown)}
        note={limitWords(limits?.out_of_round?.value.nm, shown)}
        onOpen={onOpen}
      />
      <Line
        name="probable"
        label={numbers.trueVariation}
        value={numbers.between(digitsOfMm(truly.low95, shown), lengthOfMm(truly.high95, shown))}
        note={answer.p_out_of_round_within === null ? null : <Chance p={answer.p_out_of_round_within} />}
        onOpen={onOpen}
      />
      {answer.depths.length > 1 ? (
        <Line
          name="taper"
          label={numbers.taper}
          value={lengthOfMm(answer.taper_mm, { ...shown, sign: true })}
          note={
            answer.p_taper_within === null ? (
              limitWords(limits?.taper?.value.nm, shown)
            ) : (
              <Chance p={answer.p_taper_within} />
            )
          }
          onOpen={onOpen}
        />
      ) : null}
      {twice ? (
        <Line
          name="patterns"
          label={numbers.patterns}
          value={lengthOfMm((2 * twice.amplitude_um) / 1000, shown)}
          onOpen={onOpen}
        />
      ) : null}
    </>
  );
}

const worstDepth = ({ depths }: DrumFigures) => [...depths].sort((a, b) => b.out_of_round_mm - a.out_of_round_mm)[0];

/** The same figures opened up. */
export function sheetOfDrum(name: WorkingName, answer: DrumFigures): Sheet | null {
  const { working, numbers } = words.measure;
  const shown = how.value;
  const limits = part.value?.limits;
  const truly = answer.true_out_of_round_mm;
  const worst = worstDepth(answer);
  const band = part.value?.band_width?.nm;
  switch (name) {
    case 'lowest':
      return {
        title: numbers.lowest,
        value: lengthOfMm(answer.max_mm, shown),
        picture: <TraceOf />,
        formula: working.lowest,
        source: working.lowestSource,
      };
    case 'variation':
      return {
        title: numbers.variation,
        value: `${lengthOfMm(answer.out_of_round_mm, shown)}, ${limitWords(limits?.out_of_round?.value.nm, shown)}`,
        picture: <TraceOf />,
        formula: working.variation,
        source: working.variationSource,
      };
    case 'probable':
      return {
        title: numbers.trueVariation,
        value: numbers.between(digitsOfMm(truly.low95, finer(shown)), lengthOfMm(truly.high95, finer(shown))),
        picture:
          answer.p_out_of_round_within === null ? null : (
            <ProbabilityBar
              name={numbers.trueVariation}
              p={answer.p_out_of_round_within}
              confidence={shop.value?.settings.confidence ?? 0.95}
            />
          ),
        formula: working.probable,
        source: working.probableSource,
      };
    case 'taper':
      return {
        title: numbers.taper,
        value: lengthOfMm(answer.taper_mm, { ...shown, sign: true }),
        picture: <DrumProfile depths={answer.depths} band_mm={band ? band / NM_PER_MM : null} how={shown} />,
        formula: working.taper,
      };
    case 'patterns':
      return worst
        ? {
            title: numbers.patterns,
            value: lengthOfMm((2 * (worst.harmonics.find((one) => one.order === 2)?.amplitude_um ?? 0)) / 1000, shown),
            picture: (
              <PerTurn
                name={numbers.patterns}
                harmonics={worst.harmonics}
                blind_orders={worst.blind_orders}
                how={finer(shown)}
              />
            ),
            formula: working.blind,
            source: working.patternsSource,
          }
        : null;
    default:
      return null;
  }
}
