import { useLayoutEffect, useState } from 'preact/hooks';
import type { JobFile, Part } from '../api/schema';
import { Caution } from '../controls/caution';
import { beginAfresh, complete, part as partHere, plan, shown, shownHere, tab, turnedHere } from '../measure/at_bench';
import { Sides, Tabs } from '../measure/measure_screen';
import { ReadingScreen } from '../measure/reading_screen';
import { type Tab, tabsOnCar } from '../measure/slots';
import { nextTurn } from '../refit/turn';
import { ask } from '../route/router';
import { Drawer } from '../shell/drawer';
import { Screen } from '../shell/screen';
import { stepAddress, stepFor } from '../shell/step_path';
import { isDrum } from '../show/part_kind';
import { assessment, jobFile, parts, sealed } from '../state/job';
import { words } from '../words';
import './car.css';
import { ChangeCarSetup, FirstCarSetup } from './car_setup';
import { firstOf, ToDoFirst } from './to_do_first';

/** By how many studs the part was turned for the rounds that are read. */
const turnsRead = () => [
  ...new Set(shown.value.filter(({ slot }) => slot.quantity === 'runout_outboard').map(({ slot }) => slot.circle)),
];

/** Readings on the car, wheel by wheel: the bearing, the rotor as it came, the bare hub, the rotor turned. */
export function Car() {
  const file = jobFile.value;
  const part = partHere.value;
  const key = `${part?.id}-${tab.value.name}-${tab.value.turned ?? ''}`;
  useLayoutEffect(beginAfresh, [key]);
  if (!file || !part) return null;
  if (isDrum(part)) return <NotOfDrums file={file} />;
  if (sealed.value && (!plan.value || !part.studs)) return <NeverRead file={file} />;
  if (!plan.value || !part.studs) {
    return <FirstCarSetup key={part.id} file={file} part={part} sides={<Sides />} />;
  }
  return <OnCar key={key} file={file} part={part} studs={part.studs} />;
}

/** An indicator does not reach the inside of a drum on its hub. */
function NotOfDrums({ file }: { file: JobFile }) {
  const { drum } = words.car;
  return (
    <Screen name="to-do-first" title={drum.title} next={<BackToPath file={file} style="main" />}>
      <p>{drum.why}</p>
    </Screen>
  );
}

function NeverRead({ file }: { file: JobFile }) {
  return (
    <Screen name="to-do-first" title={words.car.never_read} next={<BackToPath file={file} style="main" />}>
      <Sides />
    </Screen>
  );
}

interface Props {
  file: JobFile;
  part: Part;
  studs: number;
}

const choose = (one: Tab) => ask({ of: one.name, turned: one.turned ? String(one.turned) : '' });

function OnCar({ file, part, studs }: Props) {
  const [ready, setReady] = useState(false);
  const turns = [...new Set([...turnsRead(), turnedHere.value])].sort((a, b) => a - b);
  const turning = plan.value?.turning ?? 'clockwise';
  const first = firstOf(tab.value, studs, turning);
  const head = (
    <div class="measure-head">
      <Sides />
      <Tabs tabs={tabsOnCar(turns)} label={tabName} onChoose={choose} />
    </div>
  );
  if (!ready && !sealed.value && shownHere.value.length === 0) {
    return (
      <Screen
        name="to-do-first"
        title={first.title}
        next={
          <button type="button" class="main" onClick={() => setReady(true)}>
            {words.car.begin}
          </button>
        }
        aside={<PassOver file={file} studs={studs} />}
      >
        {head}
        {tab.value.name === 'bearing_play' ? (
          <Caution title={words.car.caution} source={words.car.caution_source}>
            <ul class="cautions">
              {words.car.caution_lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </Caution>
        ) : null}
        <ToDoFirst first={first} studs={studs} turning={turning} />
      </Screen>
    );
  }
  return (
    <ReadingScreen
      stage="on_car"
      head={head}
      first={<AgainToDo {...{ studs, turning, first }} />}
      next={<Next file={file} part={part} studs={studs} />}
      aside={<Another studs={studs} />}
      change={(close) => <ChangeCarSetup file={file} part={part} onClose={close} />}
    />
  );
}

function tabName(one: Tab): string {
  const { tab: names } = words.car;
  if (one.name === 'bearing_play') return names.play;
  if (one.name === 'hub_runout') return names.hub;
  return one.turned ? names.turned(one.turned) : names.as_it_came;
}

/** What the hand did first, to look at again while reading. */
function AgainToDo(props: Parameters<typeof ToDoFirst>[0]) {
  const [open, setOpen] = useState(false);
  return (
    <div class="car-first">
      <p class="small">{props.first.short}</p>
      <button type="button" class="plain small" onClick={() => setOpen(true)}>
        {words.car.what_to_do}
      </button>
      {open ? (
        <Drawer title={props.first.title} onClose={() => setOpen(false)}>
          <ToDoFirst {...props} />
        </Drawer>
      ) : null}
    </div>
  );
}

interface Onward {
  word: string;
  go: () => void;
}

/** Where it goes on from this round; null when this wheel is read and there is no other. */
function onward(studs: number): Onward | null {
  const { car } = words;
  const read = turnsRead();
  const turn = nextTurn(read, studs);
  const hubRead = shown.value.some(({ slot }) => slot.quantity === 'hub_runout');
  const toTurn = turn && read.length < 2 ? { word: car.next.turn(turn), go: () => choose(onHub(turn)) } : null;
  if (tab.value.name === 'bearing_play') return { word: car.play.next, go: () => choose(onHub(0)) };
  if (tab.value.turned === 0 && !hubRead) {
    return { word: car.as_it_came.next_hub, go: () => ask({ of: 'hub_runout', turned: '' }) };
  }
  if (!tab.value.turned && toTurn) return toTurn;
  const other = parts.value[parts.value.findIndex((one) => one.id === partHere.value?.id) + 1];
  if (!other) return null;
  return {
    word: car.next.side(words.trade.rotor(other.side)),
    go: () => ask({ part: other.side, of: '', turned: '' }),
  };
}

const onHub = (turned: number) => tabsOnCar([turned]).find((one) => one.turned === turned) as Tab;

function Next({ file, studs }: Props) {
  const on = onward(studs);
  const style = complete.value ? 'main' : 'main later';
  if (on) {
    return (
      <button type="button" class={style} onClick={on.go}>
        {on.word}
      </button>
    );
  }
  return <BackToPath file={file} style={style} />;
}

/** With two positions read, each further one makes the answer surer. */
function Another({ studs }: { studs: number }) {
  const read = turnsRead();
  const turn = nextTurn(read, studs);
  if (turn === null || read.length < 2 || sealed.value) return null;
  return (
    <button type="button" class="plain" onClick={() => choose(onHub(turn))}>
      {words.car.another}
    </button>
  );
}

/** The step that the job waits for: nothing on the car holds it up. */
function BackToPath({ file, style }: { file: JobFile; style: string }) {
  const step = stepFor(assessment.value?.waits_for ?? 'limits');
  return (
    <a class={`button ${style}`} href={stepAddress(file.job.number, step)}>
      {words.car.next.on(words.shell.step[step])}
    </a>
  );
}

/** Past a round that cannot be read here. */
function PassOver({ file, studs }: { file: JobFile; studs: number }) {
  const on = onward(studs);
  if (!on) return <BackToPath file={file} style="" />;
  return (
    <button type="button" onClick={on.go}>
      {words.car.leave_out}
    </button>
  );
}
