import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import type { BenchStage, Part } from '../api/schema';
import { ask } from '../route/router';
import { Choice } from '../shell/choice';
import { Drawer } from '../shell/drawer';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { isDrum } from '../show/part_kind';
import { jobFile, parts, sealed } from '../state/job';
import { words } from '../words';
import { beginAfresh, complete, part, plan, shown, tab } from './at_bench';
import { ReadingScreen } from './reading_screen';
import { isProposal, Setup, useDraft } from './setup';
import { isRead } from './shown';
import { isOnCar, slotsOf, type Tab, tabsOf } from './slots';

/** Measuring: one rotor, before or after the cut, one kind of reading at a time. */
export function MeasureScreen({ stage }: { stage: BenchStage }) {
  const here = part.value;
  useLayoutEffect(beginAfresh, [stage, here?.id, tab.value.name]);
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
      aside={stage === 'before' && !isDrum(part.value) ? <ToCar /> : null}
    >
      <Sides />
      <p class="caution">{words.measure.caution}</p>
      {trouble && <p role="alert">{trouble}</p>}
      <Setup part={here} draft={draft} onChange={setDraft} />
    </Screen>
  );
}

function Measuring({ stage }: { stage: BenchStage }) {
  return (
    <ReadingScreen
      stage={stage}
      head={
        <div class="measure-head">
          <Sides />
          <Tabs tabs={tabsOf(stage, part.value ?? undefined)} onChoose={(one) => ask({ of: one.name })} />
        </div>
      }
      next={<Next stage={stage} />}
      aside={stage === 'before' && !isDrum(part.value) ? <ToCar /> : null}
      change={(close) => <ChangeSetup stage={stage} onClose={close} />}
    />
  );
}

/** While the part is still on its hub, it can be read there. */
function ToCar() {
  return (
    <a class="button plain" href={stepAddress(jobFile.value?.job.number, 'car')}>
      {words.car.title}
    </a>
  );
}

function ChangeSetup({ stage, onClose }: { stage: BenchStage; onClose: () => void }) {
  const here = part.value as Part;
  const { draft, setDraft, trouble, keep } = useDraft(here, stage, onClose);
  return (
    <Drawer title={words.measure.setup.title} onClose={onClose}>
      {trouble && <p role="alert">{trouble}</p>}
      <Setup part={here} draft={draft} onChange={setDraft} />
      <div class="drawer-end">
        <button type="button" class="main" onClick={keep}>
          {words.measure.setup.save}
        </button>
      </div>
    </Drawer>
  );
}

export function Sides() {
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

interface TabsProps {
  tabs: readonly Tab[];
  label?: (tab: Tab) => string;
  onChoose: (tab: Tab) => void;
}

/** How much of a tab is read: "5/8", or a tick. */
export function Tabs({ tabs, label = (one) => words.measure.tab[one.name], onChoose }: TabsProps) {
  const current = plan.value;
  const key = (one: Tab) => `${one.name}${one.turned ?? ''}`;
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const here = list.current?.querySelector<HTMLElement>('[aria-checked="true"]');
    if (list.current && here)
      list.current.scrollLeft = here.offsetLeft + here.offsetWidth / 2 - list.current.clientWidth / 2;
  }, [key(tab.value)]);
  if (!current) return null;
  const options = tabs.map((one) => {
    const wanted = slotsOf(one, current, isDrum(part.value) && !isOnCar(current.stage));
    const read = wanted.filter((slot) => isRead(shown.value, slot)).length;
    const note = read === wanted.length ? '✓' : read > 0 ? `${read}/${wanted.length}` : '';
    return { value: key(one), label: label(one), note };
  });
  return (
    <div class="tabs" ref={list}>
      <Choice
        label={words.measure.tabs}
        value={key(tab.value)}
        options={options}
        onChange={(value) => {
          const chosen = tabs.find((one) => key(one) === value);
          if (chosen) onChoose(chosen);
        }}
      />
    </div>
  );
}

/** On to what is wanted next: the runout of both faces, the other rotor, and then what it all means. */
function Next({ stage }: { stage: BenchStage }) {
  const number = jobFile.value?.job.number;
  const main = complete.value ? 'main' : 'main later';
  const tabs = tabsOf(stage, part.value ?? undefined);
  const rounds = tabs.filter((one) => (one.round && !one.optional) || one.name === 'roughness');
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
