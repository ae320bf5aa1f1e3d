import type { ForeseenPass } from '../api/schema';
import { lengthOfMm } from '../show/length';
import { onRadius } from '../show/on_radius';
import { isDrum } from '../show/part_kind';
import { assessment } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import type { Bench } from './bench';
import { PassClock } from './clock';
import { CornerChoice } from './corner_choice';
import { type Corners, dialsAt, type Size, sizeAfter } from './dials';
import { DrumLathePicture } from './drum_lathe_picture';
import { bandsFor, edgesOf } from './equipment';
import { facesOf } from './faces';
import { LathePicture } from './lathe_picture';
import type { GuideStep } from './sequence';

export interface BodyProps {
  bench: Bench;
  at: GuideStep;
  typed: string;
  onTyped: (text: string) => void;
  corners: Corners;
  onCorners: (corners: Corners) => void;
}

const FINE = 1000;

const how = () => ({ unit: shop.value?.settings.default_unit ?? 'mm', resolution_nm: FINE });

/** What one step shows: its figure, large; what the hands do; what moves. */
export function StepBody(props: BodyProps) {
  const { bench, at } = props;
  const pass = at.attempt ? bench.plan.passes[at.attempt.index] : undefined;
  if (at.word === 'pass' && pass) return <PassClock run={bench.state.run} pass={pass} part={bench.part} />;
  const step = words.guide.steps[at.word];
  return (
    <div class="guide-step">
      <div class="guide-do">
        <Figures {...props} pass={pass} />
        <ul class="guide-lines">
          {at.attempt?.again === false && at.attempt.from === 'touch' && at.attempt.index > 0 && touches(at) ? (
            <li>{words.guide.touch_again}</li>
          ) : null}
          {step.lines.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
        {step.source ? <p class="small soft">{step.source}</p> : null}
      </div>
      {isDrum(bench.part) ? <DrumLathePicture word={at.word} /> : <LathePicture word={at.word} cuts={bench.cuts} />}
    </div>
  );
}

const touches = (at: GuideStep) => at.word === 'touch_outboard' || at.word === 'touch_inboard';

function Figures({
  bench,
  at,
  pass,
  typed,
  onTyped,
  corners,
  onCorners,
}: BodyProps & { pass: ForeseenPass | undefined }) {
  const { guide } = words;
  switch (at.word) {
    case 'band_on':
      return <BandToUse bench={bench} />;
    case 'edges':
      return <EdgesToUse bench={bench} corners={corners} onCorners={onCorners} />;
    case 'machine_on':
      return pass ? <Big value={String(pass.rpm)} unit={guide.rpm} /> : null;
    case 'feed_on':
      return pass ? <Big value={String(pass.feed_mm_per_rev)} unit={guide.feed} /> : null;
    case 'marks':
      return <MarksToTurn bench={bench} at={at} />;
    case 'dial_outboard':
    case 'dial_inboard':
      return <Typed label={guide.dial_reads} hint={guide.dial_zero} value={typed} onInput={onTyped} />;
    case 'measure':
      return pass ? (
        <>
          <Expected size={sizeAfter(pass)} />
          <Typed small label={guide.it_reads} value={typed} onInput={onTyped} />
        </>
      ) : null;
    default:
      return null;
  }
}

function Expected({ size }: { size: Size | null }) {
  if (!size) return null;
  const { guide } = words;
  return <Big value={lengthOfMm(size.mm, how())} unit={guide.expected_of(lengthOfMm((2 * size.u_um) / 1000, how()))} />;
}

function Big({ value, unit }: { value: string; unit: string }) {
  return (
    <p class="guide-big">
      <span class="guide-figure figures">{value}</span> <span class="guide-unit">{unit}</span>
    </p>
  );
}

interface TypedProps {
  label: string;
  hint?: string;
  small?: boolean;
  value: string;
  onInput: (text: string) => void;
}

function Typed({ label, hint, small = false, value, onInput }: TypedProps) {
  return (
    <label class={small ? 'guide-typed guide-typed-small' : 'guide-typed'}>
      <span class="soft">{label}</span>
      <input
        class="figures"
        type="text"
        inputMode="decimal"
        autoComplete="off"
        maxLength={20}
        placeholder={hint}
        value={value}
        onInput={(event) => onInput(event.currentTarget.value)}
      />
    </label>
  );
}

function MarksToTurn({ bench, at }: { bench: Bench; at: GuideStep }) {
  const { guide } = words;
  if (!at.attempt) return null;
  const { turn, stand } = dialsAt(bench.plan.passes, at.attempt, bench.state.attempts);
  const zero = (face: 'outboard' | 'inboard') => {
    const touched = bench.state.attempts.filter((one) => one.from === 'touch').at(-1);
    const text = touched ? (bench.state.details.get(`dial_${face}/${touched.number}`) ?? '') : '';
    return Number(text.replace(',', '.')) || 0;
  };
  return (
    <>
      {at.attempt.again ? <p class="guide-again">{guide.as_it_stands}</p> : null}
      <div class="guide-marks">
        {facesOf(bench.part).map((face) => (
          <div key={face} class="guide-big">
            <span class="guide-face">{guide[face]}</span>
            <span class="guide-figure figures">{turn[face]}</span>
            <span class="guide-unit">
              {guide.marks_out(turn[face])} {turn[face] > 0 ? guide.further : ''}
            </span>
            <span class="soft figures">
              {bench.cuts[face] ? guide.reads_then(zero(face) + stand[face]) : guide.not_cut}
            </span>
          </div>
        ))}
        {isDrum(bench.part) ? <OnDiameter marks={turn.outboard} /> : null}
      </div>
    </>
  );
}

/** What these marks are on the radius, and what they change of the diameter. */
function OnDiameter({ marks }: { marks: number }) {
  const bench = assessment.value?.bench;
  if (!bench) return null;
  const um = marks * bench.dial_um_per_mark;
  return <p class="guide-big guide-diameter figures">{onRadius(um, how())}</p>;
}

function BandToUse({ bench }: { bench: Bench }) {
  const { guide } = words;
  const diameter = bench.part.outer_diameter;
  const bands = shop.value?.bands.filter((one) => one.active) ?? [];
  const fitting = bandsFor(bands, diameter?.nm);
  if (bands.length === 0) return <p class="guide-note">{guide.band_unknown}</p>;
  if (fitting.length === 0) {
    return <p class="guide-note">{guide.band_none(`${diameter?.text ?? ''} ${diameter?.unit ?? ''}`)}</p>;
  }
  return (
    <ul class="guide-bands">
      {fitting.slice(0, 3).map((one) => (
        <li key={one.id} class="guide-figure figures">
          {guide.band(one.name, one.hook)}
        </li>
      ))}
    </ul>
  );
}

function EdgesToUse({ bench, corners, onCorners }: Pick<BodyProps, 'bench' | 'corners' | 'onCorners'>) {
  const { guide } = words;
  const edges = shop.value ? edgesOf(shop.value, null) : [];
  if (edges.length === 0) return <p class="guide-note">{guide.corner_none}</p>;
  return (
    <div class="guide-edges">
      <CornerChoice faces={facesOf(bench.part).filter((face) => bench.cuts[face])} {...{ edges, corners, onCorners }} />
    </div>
  );
}
