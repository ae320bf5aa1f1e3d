import { useState } from 'preact/hooks';
import type { CalcOutlookOutput } from '../api/schema';
import { Field } from '../controls/field';
import { Opens } from '../controls/opens';
import { ask, place } from '../route/router';
import { numberOf } from '../shop/numbers';
import { words } from '../words';
import { type FigureName, type Figures, RANGES, type Told, typedFigure } from './figures';
import { HOLDER_ZETA } from './reckon';
import { depthText } from './texts';

/** The figure as it stands in the address. */
export const typedHere = (name: FigureName): string => place.value.query[name] ?? '';
const readHere = (name: FigureName) => typedFigure(name, numberOf(typedHere(name)), typedHere(name));

/** What is good of what was typed. */
export function typedFigures(names: readonly FigureName[]): Partial<Figures> {
  const found: Partial<Figures> = {};
  for (const name of names) {
    const value = readHere(name);
    if (typeof value === 'number') found[name] = value;
  }
  return found;
}

const short = (value: number) => String(Number(value.toPrecision(4)));

interface FieldProps {
  name: FigureName;
  told: Told;
  heard?: number | null;
}

/** One figure: what it is, what is counted with, where that comes from; typed over where somebody knows better. */
export function FigureField({ name, told, heard = null }: FieldProps) {
  const { counted: said } = words.chatter;
  const [text, setText] = useState(typedHere(name));
  const [least, most] = RANGES[name];
  const { value, from } = told[name];
  const basis = heard !== null ? said.from.heard : from === 'assumed' ? said.assumed[name] : said.from[from];
  return (
    <Field
      label={said.name[name]}
      hint={short(heard ?? value)}
      digits
      inputMode="decimal"
      value={text}
      error={readHere(name) === 'wrong' ? said.wrong(String(least), String(most)) : undefined}
      note={basis}
      onInput={(typed) => {
        setText(typed);
        ask({ [name]: typed.trim() });
      }}
      after={<span class="unit">{said.unit[name]}</span>}
    />
  );
}

interface Props {
  told: Told;
  outlook: CalcOutlookOutput | null;
  heard: { damping_percent: number | null; band_times: number | null };
}

const N_PER_UM = 1e6;
/** Newtons for a millimetre of depth and a micrometre of chip. */
const N_PER_MM_UM = 1e9;
const CUT = ['feed_mm_per_rev', 'nose_mm', 'holder_n_per_um', 'holder_hz', 'damping_percent', 'band_times'] as const;

/** Everything that the sum rests on besides the disc's size, each figure with its source. */
export function Counted({ told, outlook, heard }: Props) {
  const { counted: said } = words.chatter;
  const of = (name: FigureName) =>
    name === 'damping_percent' ? heard.damping_percent : name === 'band_times' ? heard.band_times : null;
  return (
    <Opens title={said.title}>
      {CUT.map((name) => (
        <FigureField key={name} name={name} told={told} heard={of(name)} />
      ))}
      <ul class="small">
        {outlook
          ? said
              .also(
                (outlook.kf_n_per_m2 / N_PER_MM_UM).toPrecision(2),
                (outlook.k_disc_n_per_m / N_PER_UM).toPrecision(2),
                depthText(outlook.counted_depth_mm),
                String(100 * HOLDER_ZETA),
              )
              .map((one) => <li key={one}>{one}</li>)
          : null}
        {said.sources.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </Opens>
  );
}
