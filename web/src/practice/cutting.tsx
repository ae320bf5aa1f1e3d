import { useEffect, useState } from 'preact/hooks';
import { Caution } from '../controls/caution';
import { clockText } from '../guide/dials';
import { Choice } from '../shell/choice';
import { lengthOfMm } from '../show/length';
import { benchSound } from '../state/preferences';
import { words } from '../words';
import { CutSaid } from './cut_said';
import { marksOnWay } from './dial';
import { DialWheel } from './dial_wheel';
import { FacePanel } from './face_panel';
import { type Act, SIDES } from './model';
import { clamped, howOf, micrometres, whole } from './numbers';
import { RefusedLine } from './refused_line';
import { ToolBar } from './tool_bar';
import { PACES, type Pace, toEdge_s } from './turning';
import type { AtBench } from './use_run';

export interface Setting {
  rpm: number;
  pace: Pace;
}

interface Props {
  at: AtBench;
  setting: Setting;
  onSetting: (part: Partial<Setting>) => void;
}

const CUT_ACTS: readonly Act['do'][] = ['place', 'turn_dial', 'lock_tool', 'feed', 'change_edge'];

/** The cut: what both tools do is the largest thing; the dials under it. */
export function Cutting({ at, setting, onSetting }: Props) {
  const { cut: said } = words.practice_bench;
  const { view } = at.run;
  const turning = view.rpm > 0;
  if (view.mounted.length === 0 && !turning) return <p class="soft">{said.nothing_on}</p>;
  return (
    <section class="bench-two" aria-label={said.title}>
      <div class="bench-thing">
        <h2 class="heard">{said.tools}</h2>
        <CutSaid view={view} />
        <div class="tools">
          {SIDES.map((side) => (
            <ToolBar key={side} side={side} tool={view[side]} />
          ))}
        </div>
        <RefusedLine at={at} of={CUT_ACTS} />
        <Dials at={at} />
      </div>
      <div class="bench-beside">
        <Worn at={at} />
        <Gears at={at} setting={setting} onSetting={onSetting} />
        <Place at={at} />
        <Chips at={at} />
        <SoundSwitch />
      </div>
      <FacePanel run={at.run} answers={at.answers} />
    </section>
  );
}

function Dials({ at }: { at: AtBench }) {
  const { cut: said, side: sides } = words.practice_bench;
  const { view, bench } = at.run;
  return (
    <div class="dials">
      {SIDES.map((side) => {
        const { locked, dial_marks } = view[side];
        return (
          <div key={side} class="dial-with-lock">
            <h3>{said.dial(sides[side])}</h3>
            <DialWheel
              name={said.dial(sides[side])}
              marks={dial_marks + marksOnWay(at.pending, side)}
              onTurn={(marks) => at.act({ do: 'turn_dial', side, marks })}
            />
            <button
              type="button"
              aria-pressed={locked}
              aria-label={said.tool_named(locked ? said.locked : said.lock, sides[side])}
              onClick={() => at.act({ do: 'lock_tool', side, locked: !locked })}
            >
              {locked ? said.locked : said.lock}
            </button>
          </div>
        );
      })}
      <p class="small soft dials-note">
        {said.dial_keys} {said.mark_is(`${micrometres(bench.lathe.dial_um_per_mark)} µm`)}
      </p>
    </div>
  );
}

function Worn({ at }: { at: AtBench }) {
  const { cut: said } = words.practice_bench;
  const { glasses, gloves } = at.run.view;
  const word = (on: boolean) => (on ? said.glasses_is.on : said.glasses_is.off);
  return (
    <>
      <Caution title={said.caution}>
        <p>{said.caution_text}</p>
      </Caution>
      <fieldset class="row" aria-label={said.wear}>
        <button type="button" aria-pressed={glasses} onClick={() => at.act({ do: 'wear', glasses: !glasses, gloves })}>
          {said.glasses} {word(glasses)}
        </button>
        <button type="button" aria-pressed={gloves} onClick={() => at.act({ do: 'wear', glasses, gloves: !gloves })}>
          {said.gloves} {word(gloves)}
        </button>
      </fieldset>
      <RefusedLine at={at} of={['wear']} />
    </>
  );
}

function Gears({ at, setting, onSetting }: Props) {
  const { cut: said } = words.practice_bench;
  const { view, bench } = at.run;
  const { lathe, make } = bench;
  const chosen = view.rpm > 0 ? view.rpm : setting.rpm;
  const m_per_min = (2 * Math.PI * make.outer_radius_mm * chosen) / 1000;
  const edge_s = toEdge_s(view, make.band_outer_radius_mm);
  const speed = (rpm: number) => {
    onSetting({ rpm });
    if (view.rpm > 0) at.act({ do: 'spindle', rpm });
  };
  return (
    <>
      <Choice
        shown
        pressed
        label={`${said.speed}, ${said.rpm}`}
        value={String(chosen)}
        options={lathe.speeds_rpm.map((rpm) => ({ value: String(rpm), label: whole(rpm) }))}
        onChange={(rpm) => speed(Number(rpm))}
      />
      <p class="small soft">{said.surface(whole(m_per_min), whole(lathe.max_speed_m_per_min))}</p>
      <Choice
        shown
        pressed
        label={`${said.feed}, ${said.feed_unit}`}
        value={String(view.feed_mm_per_rev)}
        options={[0, ...lathe.feeds_mm_per_rev].map((feed) => ({
          value: String(feed),
          label: feed === 0 ? said.feed_off : String(feed),
        }))}
        onChange={(feed) => at.act({ do: 'feed', mm_per_rev: Number(feed) })}
      />
      <Choice
        shown
        label={said.pace}
        value={setting.pace}
        options={PACES.map((value) => ({ value, label: said.paces[value] }))}
        onChange={(pace) => onSetting({ pace })}
      />
      <p class="figures">
        {said.passes(view.passes)}
        {edge_s === null ? null : <span class="soft">. {said.edge_in(clockText(edge_s))}</span>}
      </p>
    </>
  );
}

const STEP_MM = 5;
/** So far past the rim the slide still goes. */
const BEYOND_MM = 25;

function Place({ at }: { at: AtBench }) {
  const { cut: said } = words.practice_bench;
  const { view, bench } = at.run;
  const { make } = bench;
  const to = (radius_mm: number) =>
    at.act({ do: 'place', radius_mm: clamped(radius_mm, 0, make.outer_radius_mm + BEYOND_MM) });
  return (
    <div class="bench-place">
      <p>
        {said.radius} <span class="figures bench-place-at">{lengthOfMm(view.radius_mm, howOf(0.1))}</span>
      </p>
      <div class="row">
        <button type="button" onClick={() => to(bench.start_radius_mm)}>
          {said.start_radius}
        </button>
        <button type="button" onClick={() => to(view.radius_mm - STEP_MM)}>
          {said.inward} {STEP_MM} mm
        </button>
        <button type="button" onClick={() => to(view.radius_mm + STEP_MM)}>
          {said.outward} {STEP_MM} mm
        </button>
      </div>
    </div>
  );
}

/** What a careless hand would do; at a turning spindle it ends the run. */
function Chips({ at }: { at: AtBench }) {
  const { cut: said } = words.practice_bench;
  const [off, setOff] = useState(false);
  const turning = at.run.view.rpm > 0;
  useEffect(() => {
    if (turning) setOff(false);
  }, [turning]);
  const wipe = () => {
    if (turning) at.act({ do: 'reach' });
    else setOff(true);
  };
  return (
    <div class="row">
      <button type="button" onClick={wipe}>
        {said.chips}
      </button>
      <button type="button" onClick={() => at.act({ do: 'change_edge' })}>
        {said.edge}
      </button>
      {off && !turning ? <p role="status">{said.chips_off}</p> : null}
      <RefusedLine at={at} of={['reach']} />
    </div>
  );
}

export function SoundSwitch() {
  const { cut: said } = words.practice_bench;
  const on = benchSound.value === 'on';
  return (
    <p class="row">
      <button
        type="button"
        aria-pressed={!on}
        onClick={() => {
          benchSound.value = on ? 'off' : 'on';
        }}
      >
        {said.mute}
      </button>
      <span class="small soft bench-key">{said.sound_key}</span>
    </p>
  );
}
