import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import type { JobFile, Part, RefitAdvice } from '../api/schema';
import { Caution } from '../controls/caution';
import { TroubleLine } from '../controls/trouble_line';
import { useAwake } from '../guide/awake';
import { useBenchKeys } from '../guide/keys';
import { tick } from '../guide/record';
import { ask } from '../route/router';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { isDrum } from '../show/part_kind';
import { sealed } from '../state/job';
import { words } from '../words';
import { stateOf } from './bench';
import type { Choosing } from './choice';
import { DriverCard } from './driver_card';
import { CheckedAgainst, fittedRunout, runoutLimit } from './fitted_check';
import { Drawn, howRunout, plateLine, takeOff, turningOf } from './how_it_goes_on';
import { NutRound, TorqueForm, useTorque } from './nuts';
import { placeInWords, torqueInWords } from './place';
import { useRecordRefit } from './record_refit';
import { CAR, type RefitState, type RefitWord, wheelSteps } from './refit_steps';
import { RustFlake } from './rust_flake';
import { shortestTurn } from './turn';

interface Props {
  file: JobFile;
  part: Part;
  advice: RefitAdvice | null;
  choosing: Choosing;
  state: RefitState;
  which: ComponentChildren;
}

const TWICE_MS = 350;
const allSteps = (part: Part): readonly RefitWord[] => [...wheelSteps(isDrum(part)), ...CAR];

/** One step at a time until the rotor is back, read, and the driver knows. */
export function RefitStep(props: Props) {
  const { file, part, choosing, state, which } = props;
  const { at } = state;
  const { refit } = words;
  const lastTap = useRef(0);
  const torque = useTorque(file, part);
  const recording = useRecordRefit(file, part, choosing);
  useAwake();
  const say = (step: RefitWord, event: 'done' | 'undone', detail = '') =>
    tick({ part_id: part.id, phase: 'refit', step, event, detail });
  const once = (work: () => void) => () => {
    const now = performance.now();
    if (now - lastTap.current < TWICE_MS || sealed.value) return;
    lastTap.current = now;
    work();
  };
  const reasonFirst = (at === 'part_on' || at === 'nuts_full') && choosing.reasonMissing;
  const toRead = at === 'runout_checked' && fittedRunout(file, part, choosing.chosen.position).read === 0;
  const read = () => ask({ view: 'read', of: 'on_hub', turned: String(choosing.chosen.position || '') });
  const done = once(() => {
    if (!at) return;
    if (reasonFirst) ask({ view: 'how' });
    else if (toRead) read();
    else if (at === 'nuts_by_hand') {
      const known = torque.check();
      if (known) say(at, 'done', torqueInWords(known));
    } else if (at === 'nuts_full') {
      void recording.record(torque.known).then((went) => (went ? say(at, 'done') : undefined));
    } else {
      say(at, 'done', detailOf(at, props));
      if (at === 'part_on') choosing.settle();
    }
  });
  useBenchKeys({ done: at ? done : undefined });
  const undo =
    state.undo && !sealed.value ? (
      <button type="button" class="plain guide-undo" onClick={once(() => say(state.undo as RefitWord, 'undone'))}>
        {refit.undo(titleOf(state.undo, props))}
      </button>
    ) : null;
  return (
    <Screen
      name="guide"
      title={at ? titleOf(at, props) : allOn(file) ? refit.done_all : refit.done_one}
      next={
        at && !sealed.value ? (
          <button type="button" class="main" disabled={recording.busy} onClick={done}>
            {reasonFirst ? refit.reason_needed : toRead ? refit.check.begin : doneWord(at, props)}
          </button>
        ) : (
          <GoOn file={file} part={part} />
        )
      }
      aside={
        at === 'runout_checked' && !toRead ? (
          <>
            <button type="button" onClick={read}>
              {refit.check.again}
            </button>
            <button type="button" onClick={once(() => takeOff(part))}>
              {refit.check.off}
            </button>
          </>
        ) : (
          <button type="button" class="plain" onClick={() => ask({ view: 'how' })}>
            {refit.look_again}
          </button>
        )
      }
    >
      {which}
      <div class="guide-meta">
        <p class="soft">{at ? refit.place(allSteps(part).indexOf(at) + 1, allSteps(part).length) : ''}</p>
        {undo}
      </div>
      {at ? <Body at={at} torque={torque} {...props} /> : null}
      <TroubleLine text={recording.trouble} />
    </Screen>
  );
}

const allOn = (file: JobFile) => file.parts.length > 1 && file.parts.every((one) => stateOf(file, one).wheel_done);

/** What was read as fitted is over the limit: that it stays so is a choice. */
function isOver({ file, part, advice, choosing, state }: Props): boolean {
  if (state.at !== 'runout_checked') return false;
  const { runout_mm } = fittedRunout(file, part, choosing.chosen.position);
  const limit_mm = runoutLimit(advice);
  return runout_mm !== null && limit_mm !== null && runout_mm > limit_mm;
}

const doneWord = (at: RefitWord, props: Props): string =>
  isOver(props) ? words.refit.check.anyway : words.refit.steps[at].done;

function titleOf(at: RefitWord, { part, choosing }: Pick<Props, 'part' | 'choosing'>): string {
  if (at !== 'part_on') return words.refit.steps[at].title;
  const turn = shortestTurn(choosing.chosen.position, part.studs ?? 1, turningOf(part));
  return words.refit.turn(turn.by, turn.sense);
}

function detailOf(at: RefitWord, { file, part, choosing }: Props): string {
  if (at === 'part_on') {
    const { position, plate_position, reason } = choosing.chosen;
    const name = choosing.fitting?.plate_name;
    const plate = name && plate_position !== null ? { name, position: plate_position } : null;
    return placeInWords({ turned: position, plate, reason: choosing.isBest ? '' : reason });
  }
  if (at === 'runout_checked') return fittedRunout(file, part, choosing.chosen.position).text;
  return '';
}

function GoOn({ file, part }: { file: JobFile; part: Part }) {
  const { refit } = words;
  const other = file.parts.find((one) => one.id !== part.id && !stateOf(file, one).wheel_done);
  const last = file.parts.find((one) => one.id !== part.id && stateOf(file, one).at !== null) ?? null;
  const next = other ?? (stateOf(file, part).at === null ? last : null);
  if (next && !sealed.value) {
    return (
      <button type="button" class="main" onClick={() => ask({ part: next.side, view: '', of: '', turned: '' })}>
        {refit.other(words.trade.rotor(next.side))}
      </button>
    );
  }
  return (
    <a class="button main" href={stepAddress(file.job.number, 'record')}>
      {refit.to_record}
    </a>
  );
}

function Lines({ at, lines }: { at: RefitWord; lines: readonly string[] }) {
  return (
    <>
      <ul class="guide-lines">
        {lines.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
      <p class="small soft">{words.refit.steps[at].source}</p>
    </>
  );
}

function Body({ at, torque, ...props }: Props & { at: RefitWord; torque: ReturnType<typeof useTorque> }) {
  const { refit } = words;
  const { file, part, advice, choosing } = props;
  switch (at) {
    case 'flange_clean':
    case 'hat_clean':
      return (
        <div class="guide-do">
          <Lines at={at} lines={refit.steps[at].lines} />
          {isDrum(part) ? null : <Flake part={part} advice={advice} />}
        </div>
      );
    case 'part_on':
      return <PartOn {...{ part, choosing }} />;
    case 'nuts_by_hand':
      return (
        <div class="guide-do">
          <Lines at={at} lines={refit.steps[at].lines} />
          <TorqueForm torque={torque} />
        </div>
      );
    case 'nuts_first':
    case 'nuts_second':
    case 'nuts_full':
      return <NutRound at={at} part={part} turned={choosing.chosen.position} torque={torque} />;
    case 'runout_checked':
      return (
        <div class="guide-do">
          <CheckedAgainst {...{ file, part, advice, choosing }} />
          <Lines at={at} lines={refit.steps[at].lines} />
        </div>
      );
    case 'pedal_pumped':
      return (
        <div class="guide-do">
          <Caution title={refit.pedal_caution}>
            <ul class="cautions">
              {refit.pedal_caution_lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </Caution>
          <Lines at={at} lines={refit.steps[at].lines} />
        </div>
      );
    case 'bedding_told':
      return (
        <div class="guide-do">
          <Lines at={at} lines={refit.steps[at].lines} />
          <DriverCard file={file} />
        </div>
      );
    default:
      return (
        <div class="guide-do">
          <Lines at={at} lines={refit.steps[at].lines} />
        </div>
      );
  }
}

function PartOn({ part, choosing }: Pick<Props, 'part' | 'choosing'>) {
  const { refit } = words;
  const studs = part.studs ?? 1;
  const turning = turningOf(part);
  const turn = shortestTurn(choosing.chosen.position, studs, turning);
  const plate = choosing.fitting?.plate_name ? [plateLine(part, choosing.fitting)] : [];
  const lines = [...refit.turn_lines(turn.by, turn.sense), ...plate];
  return (
    <div class="guide-step">
      <div class="guide-do">
        <Lines at="part_on" lines={lines} />
        <p class="soft">{refit.mark_washed}</p>
      </div>
      <Drawn {...{ choosing, studs, turning }} />
    </div>
  );
}

const FLANGE_OF_ROTOR = 0.54;
const USUAL_RADIUS_MM = 130;

function Flake({ part, advice }: { part: Part; advice: RefitAdvice | null }) {
  const rotor = advice?.radius_mm ?? (part.outer_diameter?.nm ? part.outer_diameter.nm / 2e6 : USUAL_RADIUS_MM);
  const read = part.hub_reading_diameter?.nm;
  const flange = read ? read / 2e6 : rotor * FLANGE_OF_ROTOR;
  return <RustFlake rotor_radius_mm={rotor} flange_radius_mm={flange} how={howRunout()} />;
}
