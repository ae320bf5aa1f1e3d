import { useEffect, useRef, useState } from 'preact/hooks';
import type { BenchStage, Part } from '../api/schema';
import { ask } from '../route/router';
import { Choice } from '../shell/choice';
import { Drawer } from '../shell/drawer';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { jobFile, parts, sealed } from '../state/job';
import { words } from '../words';
import {
  allQuestioned,
  beginAfresh,
  callUp,
  complete,
  part,
  plan,
  questioned,
  shown,
  shownHere,
  stage as stageHere,
  tab,
} from './at_bench';
import { FaceRing } from './face_ring';
import { Keypad } from './keypad';
import { listenForReadings } from './keys';
import { Numbers } from './numbers';
import { Question } from './question';
import { LastReading, ReadingField } from './reading_field';
import { isProposal, Setup, useDraft } from './setup';
import { SetupLine } from './setup_line';
import { isRead } from './shown';
import { slotsOf, tabsOf } from './slots';
import { TraceOf, Working, type WorkingName } from './working';

/** Measuring: one rotor, before or after the cut, one kind of reading at a time. */
export function MeasureScreen({ stage }: { stage: BenchStage }) {
  const here = part.value;
  useEffect(beginAfresh, [stage, here?.id, tab.value.name]);
  if (!here) return null;
  const begun = jobFile.value?.readings.some((one) => one.part_id === here.id && one.stage === stage) ?? false;
  return plan.value && (begun || sealed.value || !isProposal(plan.value)) ? (
    <Measuring key={`${here.id}-${stage}`} stage={stage} />
  ) : (
    <FirstSetup key={here.id} part={here} stage={stage} />
  );
}

function FirstSetup({ part: here, stage }: { part: Part; stage: BenchStage }) {
  const { draft, setDraft, trouble, keep, ready } = useDraft(here, stage, () => undefined);
  const { setup, zero } = words.measure;
  return (
    <Screen
      name="setup"
      title={setup.title}
      next={
        <button type="button" class={ready ? 'main' : 'main later'} onClick={keep}>
          {ready ? setup.begin : zero.without}
        </button>
      }
    >
      <Sides />
      <p class="caution">{words.measure.caution}</p>
      {trouble && <p role="alert">{trouble}</p>}
      <Setup draft={draft} onChange={setDraft} />
    </Screen>
  );
}

function Measuring({ stage }: { stage: BenchStage }) {
  const field = useRef<HTMLInputElement>(null);
  const [working, setWorking] = useState<WorkingName | null>(null);
  const [changing, setChanging] = useState(false);
  const [keypad, setKeypad] = useState(() => window.matchMedia('(any-pointer: coarse)').matches);
  useEffect(
    () =>
      listenForReadings({
        page: document,
        field: () => field.current,
        closeDrawer: () => {
          setWorking(null);
          setChanging(false);
        },
      }),
    [],
  );
  const asked = questioned.value !== null;
  useEffect(() => {
    if (!asked) field.current?.focus({ preventScroll: true });
  }, [asked, tab.value.name]);
  return (
    <Screen
      name="measure"
      title={words.trade.stage[stage]}
      silentTitle
      next={<Next stage={stage} />}
      aside={<QuestionSign />}
    >
      <div class="measure-head">
        <Sides />
        <Tabs stage={stage} />
      </div>
      <SetupLine onChange={() => setChanging(true)} />
      <div class={tab.value.round ? 'measure' : 'measure measure-single'}>
        <div class="entry">{asked ? <Question /> : <ReadingField field={field} />}</div>
        <FaceRing glance />
        {!asked && <LastReading />}
        {!asked && !sealed.value && (
          <div class="keys">
            {keypad && <Keypad field={field} />}
            <button type="button" class="plain small keypad-switch" onClick={() => setKeypad(!keypad)}>
              {keypad ? words.measure.hideKeypad : words.measure.showKeypad}
            </button>
          </div>
        )}
        <FaceRing />
        <Numbers onOpen={setWorking} />
        {tab.value.round && shownHere.value.length > 1 && (
          <div class="measure-trace">
            <TraceOf />
          </div>
        )}
      </div>
      {working && <Working name={working} onClose={() => setWorking(null)} />}
      {changing && <ChangeSetup stage={stage} onClose={() => setChanging(false)} />}
    </Screen>
  );
}

function ChangeSetup({ stage, onClose }: { stage: BenchStage; onClose: () => void }) {
  const here = part.value as Part;
  const { draft, setDraft, trouble, keep } = useDraft(here, stage, onClose);
  return (
    <Drawer title={words.measure.setup.title} onClose={onClose}>
      {trouble && <p role="alert">{trouble}</p>}
      <Setup draft={draft} onChange={setDraft} />
      <div class="drawer-end">
        <button type="button" class="main" onClick={keep}>
          {words.measure.setup.save}
        </button>
      </div>
    </Drawer>
  );
}

function Sides() {
  const here = part.value;
  if (!here || parts.value.length < 2) return here ? <p class="side">{words.trade.rotor(here.side)}</p> : null;
  return (
    <Choice
      label={words.measure.sides}
      value={here.side}
      options={parts.value.map((one) => ({ value: one.side, label: words.trade.side[one.side] }))}
      onChange={(side) => ask({ part: side })}
    />
  );
}

/** How much of a tab is read: "5/8", or a tick. */
function Tabs({ stage }: { stage: BenchStage }) {
  const current = plan.value;
  if (!current) return null;
  const options = tabsOf(stage, part.value?.vented).map((one) => {
    const wanted = slotsOf(one, current);
    const read = wanted.filter((slot) => isRead(shown.value, slot)).length;
    const note = read === wanted.length ? '✓' : read > 0 ? `${read}/${wanted.length}` : '';
    return { value: one.name, label: words.measure.tab[one.name], note };
  });
  return (
    <div class="tabs">
      <Choice
        label={words.measure.tabs}
        value={tab.value.name}
        options={options}
        onChange={(name) => ask({ of: name })}
      />
    </div>
  );
}

/** On to what is wanted next: the runout of both faces, the other rotor, and then what it all means. */
function Next({ stage }: { stage: BenchStage }) {
  const number = jobFile.value?.job.number;
  const main = complete.value ? 'main' : 'main later';
  const rounds = tabsOf(stage).filter((one) => one.round || one.name === 'roughness');
  const following = rounds[rounds.findIndex((one) => one.name === tab.value.name) + 1];
  const at = rounds.some((one) => one.name === tab.value.name);
  const other = parts.value[parts.value.findIndex((one) => one.id === part.value?.id) + 1];
  if (at && following) {
    return (
      <button type="button" class={main} onClick={() => ask({ of: following.name })}>
        {words.measure.next.tab(words.measure.tab[following.name])}
      </button>
    );
  }
  if (other) {
    return (
      <button type="button" class={main} onClick={() => ask({ part: other.side, of: '' })}>
        {words.measure.next.side(words.trade.side[other.side])}
      </button>
    );
  }
  return (
    <a class={`button ${main}`} href={stepAddress(number, stage === 'before' ? 'verdict' : 'check')}>
      {stage === 'before' ? words.measure.next.verdict : words.measure.next.check}
    </a>
  );
}

/** Questions that came late, after a time without connection. */
function QuestionSign() {
  const open = allQuestioned.value.filter((one) => one.id !== questioned.value?.id);
  const first = open[0];
  if (!first || stageHere.value === undefined) return null;
  return (
    <button type="button" class="attention" onClick={() => callUp(first)}>
      {words.measure.nearlyAll(open.length)}
    </button>
  );
}
