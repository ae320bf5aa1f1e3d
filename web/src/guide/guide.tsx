import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { ForeseenPass, JobFile, Part } from '../api/schema';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { isDrum } from '../show/part_kind';
import { jobFile, sealed } from '../state/job';
import { words } from '../words';
import { useAwake } from './awake';
import { actions, type Bench, benchOf, isCut, lastCut, partHere, planSettled, useNamedPart } from './bench';
import { type Corners, cornersText, sizeAfter } from './dials';
import { DialsForm } from './dials_form';
import { facesOf } from './faces';
import { useBenchKeys } from './keys';
import { waitingHere } from './record';
import type { AfterStop, GuideStep } from './sequence';
import { StepBody } from './step_body';
import { TroubleSheet, troubleOf } from './trouble';
import './guide.css';
import { TroubleLine } from '../controls/trouble_line';
import { NoPermit, TeacherSignsWaiting } from '../cut/no_permit';
import { isFar, useMeasured } from './measured';

const withPart = (part: Part) => `?part=${part.side}`;

/** The guided cut of one rotor: one large step at a time, for a screen beside the lathe. */
export function Guide() {
  const file = jobFile.value;
  const part = file ? partHere(file) : null;
  useNamedPart(part);
  if (!file || !part) return null;
  const plan = planSettled(file, part);
  if (sealed.value || isCut(file, part, plan)) return <AllDone file={file} part={part} />;
  if (!plan) return <NoPlan file={file} part={part} />;
  return <Guided key={plan.id} bench={benchOf(file, part, plan)} />;
}

function NoPlan({ file, part }: { file: JobFile; part: Part }) {
  const { guide } = words;
  return (
    <Screen
      name="guide"
      title={guide.no_plan}
      next={
        <a class="button main" href={stepAddress(file.job.number, 'plan') + withPart(part)}>
          {guide.to_plan}
        </a>
      }
      aside={
        <a class="button" href={stepAddress(file.job.number, 'by_hand') + withPart(part)}>
          {guide.by_hand}
        </a>
      }
    >
      <p class="guide-meta soft">{guide.rotor[part.side]}</p>
      <p>{guide.no_plan_why}</p>
    </Screen>
  );
}

function AllDone({ file, part }: { file: JobFile; part: Part }) {
  const { guide } = words;
  const cut = lastCut(file, part);
  return (
    <Screen
      name="guide"
      title={sealed.value ? guide.sealed : guide.all_done}
      next={
        <a class="button main" href={stepAddress(file.job.number, 'finish') + withPart(part)}>
          {guide.to_finish}
        </a>
      }
      aside={
        <a class="button" href={stepAddress(file.job.number, 'by_hand') + withPart(part)}>
          {words.cut.on_record}
        </a>
      }
    >
      <p class="guide-meta soft">{guide.rotor[part.side]}</p>
      {cut ? (
        <div class="guide-marks">
          {facesOf(part).map((face) => (
            <div key={face} class="guide-big">
              <span class="guide-face">{guide[face]}</span>
              <span class="guide-figure figures">{cut[`${face}_marks`]}</span>
              <span class="guide-unit">{guide.marks_out(cut[`${face}_marks`])}</span>
            </div>
          ))}
        </div>
      ) : null}
    </Screen>
  );
}

/** Wet fingers tap twice: a second tap so soon is not a second step. */
const TWICE_MS = 350;

function Guided({ bench }: { bench: Bench }) {
  const { guide } = words;
  const { state } = bench;
  const at = state.at;
  const awake = useAwake();
  const [wrong, setWrong] = useState(false);
  const [typed, setTyped] = useState('');
  const [corners, setCorners] = useState<Corners>(bench.corners);
  const lastTap = useRef(0);
  useLayoutEffect(() => setTyped(''), [at?.word, at?.pass]);
  const act = actions(bench);
  const once = (work: () => void) => () => {
    const now = performance.now();
    if (now - lastTap.current < TWICE_MS) return;
    lastTap.current = now;
    work();
  };
  const measured = useMeasured(at?.word === 'measure' ? typed : '');
  const expected_mm = at?.attempt ? sizeOf(bench.plan.passes[at.attempt.index]) : undefined;
  const bad = measured.wrong !== '' || badDial(at, typed);
  const done = once(() => {
    if (state.paused) act.pause();
    else if (!bad && at && at.word !== 'stopped') act.done(at.word === 'edges' ? cornersText(corners) : typed.trim());
  });
  const pause = once(() => (at && at.word !== 'stopped' ? act.pause() : undefined));
  const stop = once(act.stop);
  useBenchKeys({ done: at ? done : undefined, pause: at ? pause : undefined, wrong: () => setWrong(true) });
  const undo = state.undo ? (
    <button type="button" class="plain guide-undo" onClick={once(act.undo)}>
      {guide.undo(guide.steps[state.undo.word].title)}
    </button>
  ) : null;
  if (!at) return <DialsForm bench={bench} undo={undo} />;
  const title = state.paused ? guide.paused : guide.steps[at.word].title;
  return (
    <Screen
      name="guide"
      title={title}
      silentTitle={at.word === 'pass'}
      aside={
        <>
          <button type="button" class="guide-wrong" onClick={() => setWrong(true)}>
            {guide.wrong}
          </button>
          <button type="button" disabled={at.word === 'stopped'} onClick={pause}>
            {state.paused ? guide.go_on : guide.pause}
          </button>
          <button type="button" disabled={at.word === 'stopped'} onClick={stop}>
            {guide.stop}
          </button>
        </>
      }
      next={
        at.word === 'stopped' ? null : (
          <button type="button" class="main" onClick={done}>
            {state.paused ? guide.go_on : tickWord(at)}
          </button>
        )
      }
    >
      <Meta bench={bench} at={at}>
        {undo}
      </Meta>
      <p class="heard" role="status">
        {title}
      </p>
      {state.paused && at.word !== 'pass' ? (
        <p class="guide-lines">{guide.paused_idle}</p>
      ) : at.word === 'stopped' ? (
        <Stopped bench={bench} onChoose={(choice) => once(() => act.done(choice))()} />
      ) : (
        <StepBody {...{ bench, at, typed, corners }} onTyped={setTyped} onCorners={setCorners} />
      )}
      <TroubleLine text={measured.wrong || (bad ? guide.dial_bad : '')} />
      {isFar(measured.mm, expected_mm) ? <p class="doubt">{guide.measure_far}</p> : null}
      {awake === 'not' && at.pass === 0 ? <p class="doubt">{guide.awake}</p> : null}
      <TeacherSignsWaiting job_id={bench.file.job.id} />
      {at.pass === 0 || at.word === 'stopped' ? <NoPermit job_id={bench.file.job.id} /> : null}
      <Troubles bench={bench} />
      <p class={at.word === 'pass' ? 'heard' : 'small soft guide-foot'}>
        {guide.drives_nothing} <span class="guide-keys">{guide.keys}</span>{' '}
        {at.word === 'pass' ? null : (
          <a href={stepAddress(bench.file.job.number, 'by_hand') + withPart(bench.part)}>{guide.by_hand}</a>
        )}{' '}
        {at.word === 'pass' || isDrum(bench.part) ? null : (
          <a href={stepAddress(bench.file.job.number, 'chatter') + withPart(bench.part)}>{words.chatter.title}</a>
        )}
      </p>
      {wrong ? (
        <TroubleSheet
          running={at.word === 'pass'}
          onTrouble={act.trouble}
          onStop={() => {
            act.stop();
            setWrong(false);
          }}
          onClose={() => setWrong(false)}
        />
      ) : null}
    </Screen>
  );
}

const sizeOf = (pass: ForeseenPass | undefined) => (pass ? sizeAfter(pass)?.mm : undefined);

const isDial = (at: GuideStep | null) => at?.word === 'dial_outboard' || at?.word === 'dial_inboard';
const badDial = (at: GuideStep | null, typed: string) =>
  isDial(at) && typed.trim() !== '' && !/^\d{1,4}([.,]\d)?$/.test(typed.trim());

function tickWord(at: GuideStep): string {
  const { guide } = words;
  if (at.word === 'machine_on') return guide.machine_on_tick;
  if (at.word === 'feed_on') return guide.feed_on_tick;
  return at.word === 'pass' ? guide.clear_tick : guide.done;
}

interface MetaProps {
  bench: Bench;
  at: GuideStep;
  children: preact.ComponentChildren;
}

function Meta({ bench, at, children }: MetaProps) {
  const { guide } = words;
  const { state, plan } = bench;
  const next = state.steps[state.place + 1];
  return (
    <div class="guide-meta">
      <p class="soft">
        {[
          guide.rotor[bench.part.side],
          at.attempt ? guide.of_pass(at.attempt.index + 1, plan.passes.length) : '',
          guide.place(state.place + 1, state.steps.length),
          waitingHere.value > 0 ? guide.waiting(waitingHere.value) : '',
        ]
          .filter(Boolean)
          .join(' · ')}
        {next && at.word !== 'pass' ? (
          <span class="guide-then"> · {guide.next(guide.steps[next.word].title)}</span>
        ) : null}
      </p>
      {children}
    </div>
  );
}

function Stopped({ bench, onChoose }: { bench: Bench; onChoose: (choice: AfterStop) => void }) {
  const { after_stop, steps } = words.guide;
  return (
    <div class="guide-stopped">
      <p class="guide-lines">{steps.stopped.lines.join(' ')}</p>
      {(['edge', 'touch', 'end'] as const).map((choice) => (
        <button type="button" key={choice} class="guide-choice" onClick={() => onChoose(choice)}>
          <span>{after_stop[choice]}</span> <span class="small soft">{after_stop[`${choice}_note`]}</span>
        </button>
      ))}
      <a class="button" href={stepAddress(bench.file.job.number, 'mount') + withPart(bench.part)}>
        {after_stop.to_mount}
      </a>
    </div>
  );
}

function Troubles({ bench }: { bench: Bench }) {
  const { trouble } = words.guide;
  if (bench.troubles.length === 0) return null;
  return (
    <ul class="guide-troubles" aria-label={trouble.on_record}>
      {bench.troubles.map((one) => {
        const { kind, said } = troubleOf(one.detail);
        return (
          <li key={one.id} class="small">
            {new Date(one.at_ms).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' })} {trouble.kinds[kind]}
            {said ? `: ${said}` : ''}
          </li>
        );
      })}
    </ul>
  );
}
