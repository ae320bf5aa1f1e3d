import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Stage } from '../api/schema';
import { Screen } from '../shell/screen';
import { sealed } from '../state/job';
import { words } from '../words';
import { allQuestioned, callUp, questioned, shownHere, stage as stageHere, tab } from './at_bench';
import { FaceRing } from './face_ring';
import { FromProfile } from './from_profile';
import { Keypad } from './keypad';
import { listenForReadings } from './keys';
import { Numbers } from './numbers';
import { useOnCarAnswer } from './on_car_answer';
import { Question } from './question';
import { LastReading, ReadingField } from './reading_field';
import { SetupLine } from './setup_line';
import { TraceOf, Working, type WorkingName } from './working';

interface Props {
  stage: Stage;
  /** Over the reading: which part, and what of it. */
  head: ComponentChildren;
  /** Between the head and the reading: what the hand does first. */
  first?: ComponentChildren;
  next: ComponentChildren;
  aside?: ComponentChildren;
  /** The drawer in which it is changed how the part is gone round. */
  change: (close: () => void) => ComponentChildren;
}

/** Reading point by point: the field, the keys, the face, and what the readings say. */
export function ReadingScreen({ stage, head, first, next, aside, change }: Props) {
  const field = useRef<HTMLInputElement>(null);
  const [working, setWorking] = useState<WorkingName | null>(null);
  const [changing, setChanging] = useState(false);
  const [keypad, setKeypad] = useState(() => window.matchMedia('(any-pointer: coarse)').matches);
  useLayoutEffect(
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
  const on_car = useOnCarAnswer();
  const asked = questioned.value !== null;
  useLayoutEffect(() => {
    if (!asked) field.current?.focus({ preventScroll: true });
  }, [asked, tab.value.name, tab.value.turned]);
  return (
    <Screen
      name="measure"
      title={words.trade.stage[stage]}
      silentTitle
      next={next}
      aside={<QuestionSign otherwise={aside} />}
    >
      {head}
      {first}
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
        <Numbers on_car={on_car} onOpen={setWorking} />
        {tab.value.name === 'roughness' && !sealed.value && <FromProfile />}
        {tab.value.round && shownHere.value.length > 1 && (
          <div class="measure-trace">
            <TraceOf />
          </div>
        )}
      </div>
      {working && <Working name={working} on_car={on_car} onClose={() => setWorking(null)} />}
      {changing && change(() => setChanging(false))}
    </Screen>
  );
}

/** Questions that came late, after a time without connection; `otherwise` where there are none. */
function QuestionSign({ otherwise }: { otherwise: ComponentChildren }) {
  const open = allQuestioned.value.filter((one) => one.id !== questioned.value?.id);
  const first = open[0];
  if (!first || stageHere.value === undefined) return <>{otherwise}</>;
  return (
    <button type="button" class="attention" onClick={() => callUp(first)}>
      {words.measure.nearlyAll(open.length)}
    </button>
  );
}
