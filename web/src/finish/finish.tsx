import { useRef, useState } from 'preact/hooks';
import type { JobFile, Part } from '../api/schema';
import { Caution } from '../controls/caution';
import { useAwake, useNow } from '../guide/awake';
import { lastCut, useNamedPart } from '../guide/bench';
import { useBenchKeys } from '../guide/keys';
import { benchEvents, tick } from '../guide/record';
import { CountBack } from '../pegboard/count_back';
import { place } from '../route/router';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { lengthOfMm } from '../show/length';
import { isDrum } from '../show/part_kind';
import { assessmentOf, jobFile, sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { afterFinish, type FinishState, type FinishWord, finishOf, finishState, isSanding } from './finish_steps';
import '../guide/guide.css';

const TWICE_MS = 350;
/** Grey iron; trade practice reckons with it. */
const GROWTH_PER_K = 11e-6;

function stateOf(file: JobFile, part: Part): FinishState {
  const cut = lastCut(file, part);
  return finishState(benchEvents(file, { part_id: part.id, phase: 'finish', since: cut?.at }), finishOf(part));
}

/** The rotor that the address names, else the first that is cut and not finished. */
function partToFinish(file: JobFile): Part | null {
  const named = file.parts.find((one) => one.side === place.value.query.part);
  const wanted = file.parts.find((one) => lastCut(file, one) && stateOf(file, one).at !== null);
  return named ?? wanted ?? file.parts[0] ?? null;
}

/** Sanding, washing, the white cloth and cooling down, one step at a time. */
export function Finish() {
  const file = jobFile.value;
  const part = file ? partToFinish(file) : null;
  useNamedPart(part);
  if (!file || !part) return null;
  const { finish, guide } = words;
  if (!lastCut(file, part)) {
    return (
      <Screen
        name="guide"
        title={finish.not_cut}
        next={
          <a class="button main" href={`${stepAddress(file.job.number, 'cut')}?part=${part.side}`}>
            {finish.to_cut}
          </a>
        }
      >
        <p class="guide-meta soft">{guide.rotor[part.side]}</p>
      </Screen>
    );
  }
  return <FinishOf key={part.id} file={file} part={part} />;
}

function FinishOf({ file, part }: { file: JobFile; part: Part }) {
  const { finish, guide } = words;
  const state = stateOf(file, part);
  const { at } = state;
  const steps = finishOf(part);
  const [grit, setGrit] = useState('');
  const lastTap = useRef(0);
  useAwake();
  const say = (step: FinishWord, event: 'done' | 'undone' | 'begun' | 'trouble', detail = '') =>
    tick({ part_id: part.id, phase: 'finish', step, event, detail });
  const once = (work: () => void) => () => {
    const now = performance.now();
    if (now - lastTap.current < TWICE_MS || sealed.value) return;
    lastTap.current = now;
    work();
  };
  const done = once(() => {
    if (!at) return;
    if (isSanding(at) && state.sanding_since_ms === null) say(at, 'begun');
    else say(at, 'done', isSanding(at) && grit.trim() ? `${grit.trim()} grit` : '');
  });
  const grey = once(() => {
    say('cloth_white', 'trouble', 'cloth not clean');
    say('washed', 'undone');
  });
  useBenchKeys({ done: at ? done : undefined });
  const undo =
    state.undo && !sealed.value ? (
      <button type="button" class="plain guide-undo" onClick={once(() => say(state.undo as FinishWord, 'undone'))}>
        {finish.undo(finish.steps[state.undo].title)}
      </button>
    ) : null;
  return (
    <Screen
      name="guide"
      title={at ? finish.steps[at].title : finish.all_done}
      next={
        at ? <Tick at={at} running={state.sanding_since_ms !== null} onDone={done} /> : <GoOn file={file} part={part} />
      }
      aside={
        at === 'cloth_white' ? (
          <button type="button" onClick={grey}>
            {finish.grey}
          </button>
        ) : null
      }
    >
      <div class="guide-meta">
        <p class="soft">
          {guide.rotor[part.side]}
          {at ? ` · ${finish.place(steps.indexOf(at) + 1, steps.length)}` : ''}
        </p>
        {undo}
      </div>
      {at ? (
        <div class="guide-do">
          {isSanding(at) ? <Caution title={finish.caution}>{null}</Caution> : null}
          {isSanding(at) ? <SandingClock since_ms={state.sanding_since_ms} /> : null}
          {at === 'cool' ? <Warmth part={part} /> : null}
          <ul class="guide-lines">
            {finish.steps[at].lines.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
          <p class="small soft">{finish.steps[at].source}</p>
          {isSanding(at) ? (
            <label class="guide-typed guide-typed-small">
              <span class="soft">{finish.grit}</span>
              <input
                class="figures"
                inputMode="numeric"
                maxLength={20}
                placeholder={finish.grit_hint}
                value={grit}
                onInput={(event) => setGrit(event.currentTarget.value)}
              />
            </label>
          ) : null}
        </div>
      ) : (
        <CountBack file={file} />
      )}
    </Screen>
  );
}

function Tick({ at, running, onDone }: { at: FinishWord; running: boolean; onDone: () => void }) {
  const { finish } = words;
  const word =
    isSanding(at) && !running
      ? finish.start
      : at === 'cloth_white'
        ? finish.clean
        : at === 'cool'
          ? finish.cold
          : finish.done;
  return (
    <button type="button" class="main" onClick={onDone}>
      {word}
    </button>
  );
}

function GoOn({ file, part }: { file: JobFile; part: Part }) {
  const { finish, guide } = words;
  const next = afterFinish(file, part, (other) => stateOf(file, other).at === null);
  const rotor = guide.rotor[next.part.side];
  return (
    <a class="button main" href={`${stepAddress(file.job.number, next.step)}?part=${next.part.side}`}>
      {next.step === 'after' ? finish.next.after : finish.next[next.step](rotor)}
    </a>
  );
}

function SandingClock({ since_ms }: { since_ms: number | null }) {
  const { finish } = words;
  const now = useNow(since_ms !== null);
  const seconds = since_ms === null ? 0 : Math.max(0, Math.floor((now - since_ms) / 1000));
  return (
    <p class="guide-big">
      <span class="guide-figure figures clock-left" role="timer">
        {seconds}
      </span>{' '}
      <span class="guide-unit">
        {finish.seconds}, {finish.of_seconds}
      </span>
    </p>
  );
}

const WARMTHS_K = [10, 25, 50] as const;

/** What warmth adds to the reading of this rotor. */
function Warmth({ part }: { part: Part }) {
  const { finish } = words;
  const how = { unit: shop.value?.settings.default_unit ?? 'mm', resolution_nm: 1000 } as const;
  const before = assessmentOf(part)?.before;
  const usual_nm = isDrum(part) ? 250_000_000 : 25_000_000;
  const size_mm =
    (isDrum(part) ? before?.diameter?.mean_mm : before?.thickness?.mean_mm) ??
    (part.limits.nominal?.value.nm ?? usual_nm) / 1e6;
  return (
    <ul class="finish-warmth">
      {WARMTHS_K.map((kelvin) => (
        <li key={kelvin} class="guide-big">
          <span class="guide-figure figures">{lengthOfMm(size_mm * GROWTH_PER_K * kelvin, how)}</span>
          <span class="guide-unit">{finish.reads_more(kelvin)}</span>
        </li>
      ))}
    </ul>
  );
}
