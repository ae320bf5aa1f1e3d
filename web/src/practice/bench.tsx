import { useLayoutEffect, useState } from 'preact/hooks';
import { TroubleLine } from '../controls/trouble_line';
import { targetOf } from '../guide/keys';
import { ask, place } from '../route/router';
import { Screen } from '../shell/screen';
import { useKept } from '../state/kept';
import { benchSound } from '../state/preferences';
import { person } from '../state/shop';
import { words } from '../words';
import '../mount/mount.css';
import './practice.css';
import { AfterCut } from './after_cut';
import { Cutting, type Setting } from './cutting';
import { Deciding } from './deciding';
import { EndedRun } from './ended_run';
import { type InHand, Measuring, measureAct } from './measuring';
import { Mounting, mountAct, type Stacking } from './mounting';
import { benchTime } from './numbers';
import { onFace } from './part_face';
import { oncePerPress } from './presses';
import { RefusedAnywhere } from './refused_line';
import { type BenchStage, STAGES, stageAfter, stageOf } from './stage';
import { type AtBench, useRun } from './use_run';
import { useSound } from './use_sound';
import { useTurning } from './use_turning';
import { Watching } from './watching';

/** The bench of one run. */
export function PracticeBench({ run: id = '' }: Record<string, string>) {
  return <Run key={id} id={id} />;
}

function Run({ id }: { id: string }) {
  const { practice_bench: said } = words;
  const { at, trouble, again } = useRun(id);
  if (!at) {
    return (
      <Screen
        name="bench"
        title={said.title}
        next={
          trouble ? (
            <button type="button" class="main" onClick={again}>
              {words.shell.tryAgain}
            </button>
          ) : undefined
        }
        aside={<ToAll />}
      >
        {trouble ? <TroubleLine text={trouble.message} /> : <p class="soft">{said.loading}</p>}
      </Screen>
    );
  }
  if (at.run.view.ended) return <EndedRun run={at.run} trouble={trouble} again={again} />;
  return at.run.person_id === person.value?.id ? <AtWork at={at} /> : <Watching run={at.run} />;
}

const ToAll = () => (
  <a class="button" href="/practice">
    {words.practice_bench.back}
  </a>
);

const isStage = (value: string | undefined): value is BenchStage => STAGES.includes(value as BenchStage);

function AtWork({ at }: { at: AtBench }) {
  const { practice_bench: said } = words;
  const { view, bench, acts } = at.run;
  const asked = place.value.query.stage;
  const stage = isStage(asked) ? asked : stageOf(view);
  const { draft: hand, change: onHand } = useKept<InHand>(`bench_hand.${at.run.id}`, () => ({
    instrument_id: bench.instruments[0]?.id ?? '',
    spot: onFace(bench.make, {
      angle_deg: 0,
      radius_mm: (bench.make.band_inner_radius_mm + bench.make.band_outer_radius_mm) / 2,
    }),
  }));
  const { draft: stacking, change: onStacking } = useKept<Stacking>(`bench_stack.${at.run.id}`, () => ({
    pieces: [],
    nut_tight: true,
    turn_deg: 0,
  }));
  const { draft: setting, change: onSetting } = useKept<Setting>(`bench_setting.${at.run.id}`, () => ({
    rpm: bench.lathe.speeds_rpm[0] ?? 0,
    pace: '1',
  }));
  const sound = useSound(at);
  useTurning(at, setting.pace);
  useMuteKey();
  useLayoutEffect(() => oncePerPress(window), []);
  const [sure, setSure] = useState(false);
  const go = (to: BenchStage) => {
    setSure(false);
    ask({ stage: to });
  };
  const start = () => {
    sound.begin();
    at.act({ do: 'spindle', rpm: setting.rpm });
  };
  const ways = { at, stage, hand, stacking, go, start, sure, setSure };
  return (
    <Screen name="bench" title={said.title} silentTitle next={<Next {...ways} />} aside={<Aside {...ways} />}>
      <StageStrip stage={stage} onStage={go} />
      <p class="bench-line small soft">
        {said.time(benchTime(view.clock_s).hours, benchTime(view.clock_s).minutes)}. {said.not_real}
      </p>
      {at.lost ? (
        <p class="trouble" role="status">
          {said.lost}
        </p>
      ) : null}
      <RefusedAnywhere at={at} />
      {stage === 'measure' ? <Measuring {...{ at, hand, onHand }} /> : null}
      {stage === 'decide' ? <Deciding at={at} /> : null}
      {stage === 'mount' ? <Mounting {...{ at, stacking, onStacking }} /> : null}
      {stage === 'cut' ? <Cutting {...{ at, setting, onSetting }} /> : null}
      {stage === 'after' ? <AfterCut {...{ at, hand, onHand }} /> : null}
      {sure && acts.length > 0 ? <p class="doubt">{said.after.finish_means}</p> : null}
    </Screen>
  );
}

/** M turns the sound off and on, wherever nothing is typed. */
function useMuteKey(): void {
  useLayoutEffect(() => {
    const hear = (event: KeyboardEvent) => {
      if (event.repeat || event.key.toLowerCase() !== 'm' || event.ctrlKey || event.metaKey || event.altKey) return;
      if (targetOf(event.target) === 'typing' || targetOf(event.target) === 'dialog') return;
      benchSound.value = benchSound.value === 'on' ? 'off' : 'on';
    };
    window.addEventListener('keydown', hear);
    return () => window.removeEventListener('keydown', hear);
  }, []);
}

function StageStrip({ stage, onStage }: { stage: BenchStage; onStage: (stage: BenchStage) => void }) {
  const { practice_bench: said } = words;
  return (
    <nav class="bench-stages" aria-label={said.stages_of}>
      {STAGES.map((one, i) => (
        <button
          key={one}
          type="button"
          class="plain"
          aria-current={one === stage ? 'step' : undefined}
          onClick={() => onStage(one)}
        >
          <span class="figures bench-stage-number">{i + 1}</span> {said.stage[one]}
        </button>
      ))}
    </nav>
  );
}

interface WayProps {
  at: AtBench;
  stage: BenchStage;
  hand: InHand;
  stacking: Stacking;
  go: (stage: BenchStage) => void;
  start: () => void;
  sure: boolean;
  setSure: (sure: boolean) => void;
}

/** The same button with another text, so that the keyboard stays on it from the start to the stop. */
const Main = ({ onClick, text, kind = '' }: { onClick: () => void; text: string; kind?: string }) => (
  <button type="button" class={`main ${kind}`} onClick={onClick}>
    {text}
  </button>
);

/** What is next; while the spindle turns that is the stop, at the same place on every stage. */
function Next({ at, stage, hand, stacking, go, start, sure, setSure }: WayProps) {
  const { practice_bench: said } = words;
  const { view } = at.run;
  if (view.rpm > 0) {
    const stop = () => at.act({ do: 'spindle', rpm: 0 }, { first: true });
    return <Main kind="bench-stop" text={said.stop_named} onClick={stop} />;
  }
  const mounted = view.mounted.length > 0;
  const on = stageAfter(stage, view.decided);
  if (stage === 'measure') return <Main text={said.measure.here} onClick={() => at.act(measureAct(hand))} />;
  if (stage === 'mount' && !mounted) {
    return <Main text={said.mount.mount} onClick={() => at.act(mountAct(stacking))} />;
  }
  if (stage === 'cut' && mounted) return <Main text={said.cut.start} onClick={start} />;
  if (stage === 'cut') return <Main text={said.on_to(said.stage.mount)} onClick={() => go('mount')} />;
  if (stage === 'after') {
    // Once asked, the same finger keeps the run: the word that ends it stands on the other side.
    return sure ? (
      <Main kind="later" text={said.after.keep} onClick={() => setSure(false)} />
    ) : (
      <Main kind="later" text={said.after.finish} onClick={() => setSure(true)} />
    );
  }
  return on ? <Main text={said.on_to(said.stage[on])} onClick={() => go(on)} /> : null;
}

/** The way on where the main thing is done again and again, and the way out. */
function Aside({ at, stage, hand, go, sure }: WayProps) {
  const { practice_bench: said } = words;
  const { view } = at.run;
  const on = stageAfter(stage, view.decided);
  if (sure && view.rpm === 0) {
    return (
      <button type="button" onClick={() => at.act({ do: 'finish' })}>
        {said.after.finish_sure}
      </button>
    );
  }
  const onButton = on ? (
    <button type="button" onClick={() => go(on)}>
      {said.on_to(said.stage[on])}
    </button>
  ) : null;
  if (stage === 'after' && !view.refitted) {
    return (
      <button type="button" onClick={() => at.act(measureAct(hand))}>
        {said.measure.here}
      </button>
    );
  }
  if (stage === 'measure' || (stage === 'cut' && view.rpm === 0)) return onButton;
  return <ToAll />;
}
