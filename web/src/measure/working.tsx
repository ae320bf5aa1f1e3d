import type { ComponentChildren } from 'preact';
import { PerTurn } from '../pictures/per_turn';
import { ProbabilityBar } from '../pictures/probability_bar';
import { Trace } from '../pictures/trace';
import { Drawer } from '../shell/drawer';
import { digitsOfMm, lengthOfMm } from '../show/length';
import { moment } from '../show/time';
import { typeset } from '../show/typeset';
import { assessmentOf } from '../state/job';
import { instrumentOf, personName, shop } from '../state/shop';
import { words } from '../words';
import { type CircleAnswer, circleAnswer, thicknessAnswer } from './answers';
import { circles, drawnCircle, how, part, shownHere, slots, spread, stage, tab } from './at_bench';
import { drumAnswer } from './drum_answer';
import { sheetOfDrum } from './drum_numbers';
import { finer, limitWords, micrometerDecides, ordersInWords } from './numbers';
import { meanAt, readingsAt } from './shown';
import { angleOfPoint, type Slot } from './slots';

/** A figure opened up: what it is, the readings under it, how it is worked out, and where that comes from. */
export type WorkingName =
  | 'lowest'
  | 'mean'
  | 'variation'
  | 'probable'
  | 'decides'
  | 'taper'
  | 'patterns'
  | 'blind'
  | 'temperature'
  | 'runout';

export interface Sheet {
  title: string;
  value: string;
  picture?: ComponentChildren;
  formula: string;
  source?: string;
  advice?: string[];
}

interface WorkingProps {
  name: WorkingName;
  /** What the shop makes of the round on the car. */
  on_car: CircleAnswer | null;
  onClose: () => void;
}

export function Working({ name, on_car, onClose }: WorkingProps) {
  const sheet = sheetOf(name, on_car);
  if (!sheet) return null;
  const { working } = words.measure;
  return (
    <Drawer title={sheet.title} onClose={onClose}>
      <p class="working-value digits">{sheet.value}</p>
      {sheet.picture}
      <section>
        <h3>{words.shell.formula}</h3>
        <p>{sheet.formula}</p>
      </section>
      {sheet.advice && sheet.advice.length > 0 && (
        <section>
          <h3>{working.advice}</h3>
          {sheet.advice.map((text) => (
            <p key={text}>{text}</p>
          ))}
        </section>
      )}
      {sheet.source && (
        <section>
          <h3>{words.shell.source}</h3>
          <p>{sheet.source}</p>
        </section>
      )}
      <Readings />
    </Drawer>
  );
}

/** Every reading that counts here, with who took it, when and with what. */
function Readings() {
  const { working } = words.measure;
  const rows = slots.value.flatMap((slot) => readingsAt(shownHere.value, slot));
  return (
    <section>
      <h3>{working.readings}</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.pictures.point}</th>
            <th scope="col" class="digits">
              {words.pictures.value}
            </th>
            <th scope="col">{working.who}</th>
            <th scope="col">{working.when}</th>
            <th scope="col">{working.with}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((one) => (
            <tr key={one.id} class="reading-row">
              <td>{shortWhere(one.slot)}</td>
              <td class="digits">{one.text}</td>
              <td>{personName(one.by_person_id)}</td>
              <td>{moment(one.taken_at, new Date())}</td>
              <td>{instrumentOf(one.instrument_id)?.name ?? ''}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function shortWhere(slot: Slot): string {
  if (!tab.value.round) return words.trade.quantity[slot.quantity];
  return circles.value > 1
    ? `${slot.point + 1}, ${words.measure.circle(slot.circle, circles.value)}`
    : `${slot.point + 1}`;
}

/** The means of the points as they were read, one series for each circle. */
export function traceSeries() {
  const rows = circles.value;
  return Array.from({ length: rows }, (_, circle) => ({
    name: rows > 1 ? words.measure.circle(circle, rows) : words.measure.tab[tab.value.name],
    points: slots.value
      .filter((slot) => drawnCircle(slot) === circle)
      .flatMap((slot) => {
        const nm = meanAt(shownHere.value, slot);
        return nm === null ? [] : [{ angle_deg: angleOfPoint(slot.point, spread.value), value_mm: nm / 1e6 }];
      }),
  }));
}

function sheetOf(name: WorkingName, on_car: CircleAnswer | null): Sheet | null {
  const here = part.value;
  const answered = here ? assessmentOf(here) : null;
  const thickness = tab.value.name === 'thickness' ? thicknessAnswer(answered, stage.value) : null;
  const circle = circleAnswer(answered, stage.value, tab.value.name, on_car);
  if (tab.value.name === 'diameter') return drumAnswer.value ? sheetOfDrum(name, drumAnswer.value) : null;
  if (thickness) return ofThickness(name, thickness);
  if (circle) return ofRunout(name, circle);
  return null;
}

export function TraceOf({ limits = [] }: { limits?: { value_mm: number; word: string }[] }) {
  return (
    <Trace
      name={words.measure.ring.name(words.measure.tab[tab.value.name])}
      series={traceSeries()}
      limits={limits}
      how={how.value}
      over_deg={spread.value.over_deg === 180 ? 180 : 360}
    />
  );
}

function ofThickness(name: WorkingName, answer: NonNullable<ReturnType<typeof thicknessAnswer>>): Sheet | null {
  const { working, numbers } = words.measure;
  const shown = how.value;
  const limits = part.value?.limits;
  const confidence = shop.value?.settings.confidence ?? 0.95;
  const p = answer.p_variation_within;
  const bar =
    p === undefined || p === null ? null : (
      <ProbabilityBar name={numbers.trueVariation} p={p} confidence={confidence} />
    );
  const advice = answer.advice.map((one) => typeset(one.text));
  const limitLines = (['machine_to', 'discard'] as const).flatMap((key) => {
    const nm = limits?.[key]?.value.nm;
    const near = nm !== undefined && Math.abs(answer.min_mm - nm / 1e6) < 6 * Math.max(answer.variation_mm, 0.02);
    return nm !== undefined && near ? [{ value_mm: nm / 1e6, word: words.trade.limit[key] }] : [];
  });
  const truly = answer.true_variation_mm;
  switch (name) {
    case 'lowest':
      return {
        title: numbers.lowest,
        value: lengthOfMm(answer.min_mm, shown),
        picture: <TraceOf limits={limitLines} />,
        formula: working.lowest,
        source: working.lowestSource,
      };
    case 'mean':
      return {
        title: numbers.mean,
        value: lengthOfMm(answer.mean_mm, finer(shown)),
        picture: <TraceOf />,
        formula: working.mean,
      };
    case 'variation':
      return {
        title: numbers.variation,
        value: `${lengthOfMm(answer.variation_mm, shown)}, ${limitWords(limits?.variation?.value.nm, shown)}`,
        picture: <TraceOf />,
        formula: working.variation,
        source: working.variationSource,
      };
    case 'probable':
      return {
        title: numbers.trueVariation,
        value: numbers.between(digitsOfMm(truly.low95, finer(shown)), lengthOfMm(truly.high95, finer(shown))),
        picture: bar,
        formula: working.probable,
        source: working.probableSource,
      };
    case 'decides':
      return {
        title: numbers.decides,
        value: micrometerDecides(answer, confidence).word,
        picture: bar,
        formula: working.decides,
        source: working.probableSource,
        advice,
      };
    case 'taper':
      return {
        title: numbers.taper,
        value: lengthOfMm(answer.taper_mm, { ...shown, sign: true }),
        picture: <TraceOf />,
        formula: working.taper,
      };
    case 'temperature':
      return {
        title: numbers.temperature,
        value: lengthOfMm(answer.temperature_shift_mm, { ...finer(shown), sign: true }),
        formula: working.temperature,
        source: working.temperatureSource,
      };
    default:
      return ofPatterns(name, answer.harmonics, answer.blind_orders);
  }
}

function ofRunout(name: WorkingName, answer: CircleAnswer): Sheet | null {
  const { working, numbers } = words.measure;
  const shown = how.value;
  if (name !== 'runout') return ofPatterns(name, answer.harmonics, answer.blind_orders);
  return {
    title: numbers.runout,
    value: `${lengthOfMm(answer.range_um / 1000, shown)}, ${limitWords(part.value?.limits.runout?.value.nm, shown)}`,
    picture: <TraceOf />,
    formula: working.runout,
    source: working.runoutSource,
  };
}

function ofPatterns(
  name: WorkingName,
  harmonics: readonly { order: number; amplitude_um: number; phase_deg: number }[],
  blind: readonly number[],
): Sheet | null {
  const { working, numbers } = words.measure;
  const once = harmonics.find((one) => one.order === 1);
  const figure = <PerTurn name={numbers.patterns} harmonics={harmonics} blind_orders={blind} how={finer(how.value)} />;
  if (name === 'patterns') {
    return {
      title: numbers.patterns,
      value: once ? lengthOfMm((2 * once.amplitude_um) / 1000, how.value) : '',
      picture: figure,
      formula: working.patterns,
      source: working.patternsSource,
    };
  }
  if (name !== 'blind') return null;
  return {
    title: numbers.blind,
    value: ordersInWords(blind),
    picture: figure,
    formula: working.blind,
    source: working.blindSource,
  };
}
