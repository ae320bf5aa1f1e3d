import { Choice } from '../shell/choice';
import { digitsOfMm, lengthOfMm } from '../show/length';
import { words } from '../words';
import { LimitList } from './limit_list';
import { LookList } from './look_list';
import type { BenchInstrument } from './model';
import { howOf, whole } from './numbers';
import { ANGLE_STEP_DEG, onFace, PartFace, RADIUS_STEP_MM, type Spot } from './part_face';
import { ReadingList } from './reading_list';
import { isZeroed, readingsOf } from './readings';
import { RefusedLine } from './refused_line';
import type { AtBench } from './use_run';

/** What the hand has taken up: an instrument, and where it stands. */
export interface InHand {
  instrument_id: string;
  spot: Spot;
  /** What the last bit is turned by; the ratchet where nothing is said. */
  turned_by?: 'ratchet' | 'thimble';
}

export interface MeasuringProps {
  at: AtBench;
  hand: InHand;
  onHand: (hand: Partial<InHand>) => void;
}

export const measureAct = ({ instrument_id, spot, turned_by = 'ratchet' }: InHand) => ({
  do: 'measure' as const,
  instrument_id,
  ...spot,
  ratchet: turned_by === 'ratchet',
});

/** Look and measure: the reading is the largest thing, the part under it, what was read beside. */
export function Measuring({ at, hand, onHand, after = false }: MeasuringProps & { after?: boolean }) {
  const { measure: said } = words.practice_bench;
  const { bench, view, acts } = at.run;
  const readings = readingsOf(acts);
  const cut = acts.some(({ act }) => act.do === 'turns');
  const shown = readings.filter((one) => one.cut === cut);
  const instrument = bench.instruments.find((one) => one.id === hand.instrument_id);
  const last = readings.at(-1);
  const measure = () => at.act(measureAct(hand));
  return (
    <section class="bench-two" aria-label={after ? said.after_title : said.title}>
      <div class="bench-thing">
        <div class="bench-reading" aria-live="polite">
          <p class="soft small">
            {last ? `${said.last} ${said.at(whole(last.angle_deg), `${whole(last.radius_mm)} mm`)}` : said.nothing_read}
          </p>
          <p class="bench-figure figures">
            {last ? digitsOfMm(last.shown_mm, howOf(instrumentOf(bench.instruments, last.instrument_id))) : '–'}{' '}
            <span class="bench-unit">{howOf(1).unit}</span>
          </p>
        </div>
        <RefusedLine at={at} of={['measure']} />
        <PartFace
          make={bench.make}
          studs_deg={bench.stud_positions_deg}
          readings={shown}
          spot={hand.spot}
          onSpot={(spot) => onHand({ spot })}
          onMeasure={measure}
        />
        <Steps {...{ at, hand, onHand }} />
        <p class="small soft">{said.keys}</p>
      </div>
      <div class="bench-beside">
        {bench.instruments.length > 0 ? (
          <Choice
            shown
            label={said.instrument}
            value={hand.instrument_id}
            options={bench.instruments.map((one) => ({ value: one.id, label: said.kind(one.kind) }))}
            onChange={(instrument_id) => onHand({ instrument_id })}
          />
        ) : null}
        {instrument && instrument.kind !== 'caliper' ? (
          <Choice
            shown
            label={said.turned_by}
            value={hand.turned_by ?? 'ratchet'}
            options={(['ratchet', 'thimble'] as const).map((value) => ({ value, label: said.turned[value] }))}
            onChange={(turned_by) => onHand({ turned_by })}
          />
        ) : null}
        {instrument ? <Instrument at={at} instrument={instrument} /> : null}
        <p class={view.part_temperature_c > WARM_C ? 'doubt' : 'soft small'}>
          {view.part_temperature_c > WARM_C
            ? said.warm(whole(view.part_temperature_c))
            : said.cool(whole(view.part_temperature_c))}
        </p>
        <div class="row">
          <button type="button" onClick={() => at.act({ do: 'look' })}>
            {said.look}
          </button>
          <button type="button" onClick={() => at.act({ do: 'wait', minutes: 10 })}>
            {said.wait}
          </button>
        </div>
        <RefusedLine at={at} of={['look', 'wait']} />
        <LookList acts={acts} />
        <LimitList make={bench.make} />
        <ReadingList readings={readings} instruments={bench.instruments} />
      </div>
    </section>
  );
}

/** Over this a part is said to be warm: the room is at 20. */
const WARM_C = 22;

export const instrumentOf = (instruments: readonly BenchInstrument[], id: string): number =>
  instruments.find((one) => one.id === id)?.resolution_mm ?? 0.01;

function Instrument({ at, instrument }: { at: AtBench; instrument: BenchInstrument }) {
  const { measure: said } = words.practice_bench;
  const zeroed = isZeroed(at.run.acts, instrument.id);
  return (
    <div class="bench-instrument">
      <p class="small soft">
        {said.certificate(lengthOfMm(instrument.u_mm, howOf(instrument.u_mm / 10)))}
        {zeroed ? '' : `, ${said.not_zeroed}`}
      </p>
      <button type="button" onClick={() => at.act({ do: 'zero_micrometer', instrument_id: instrument.id })}>
        {said.zero}
      </button>
      <RefusedLine at={at} of={['zero_micrometer']} />
    </div>
  );
}

const ROUND_DEG = 45;

/** The same as the keys, for a finger that would miss. */
function Steps({ at, hand, onHand }: MeasuringProps) {
  const { measure: said } = words.practice_bench;
  const { make } = at.run.bench;
  const by = (angle_deg: number, radius_mm: number) => () =>
    onHand({
      spot: onFace(make, { angle_deg: hand.spot.angle_deg + angle_deg, radius_mm: hand.spot.radius_mm + radius_mm }),
    });
  return (
    <div class="bench-steps">
      <button type="button" onClick={by(-ANGLE_STEP_DEG, 0)} aria-label={`${said.angle} −${ANGLE_STEP_DEG}°`}>
        −{ANGLE_STEP_DEG}°
      </button>
      <p class="figures bench-step-at">
        {whole(hand.spot.angle_deg)}° <span class="soft">{whole(hand.spot.radius_mm)} mm</span>
      </p>
      <button type="button" onClick={by(ANGLE_STEP_DEG, 0)} aria-label={`${said.angle} +${ANGLE_STEP_DEG}°`}>
        +{ANGLE_STEP_DEG}°
      </button>
      <button type="button" onClick={by(0, -5 * RADIUS_STEP_MM)}>
        {said.in}
      </button>
      <button type="button" onClick={by(ROUND_DEG, 0)}>
        {said.round} {ROUND_DEG}°
      </button>
      <button type="button" onClick={by(0, 5 * RADIUS_STEP_MM)}>
        {said.out}
      </button>
    </div>
  );
}
