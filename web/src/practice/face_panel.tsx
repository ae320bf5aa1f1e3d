import { useEffect, useRef, useState } from 'preact/hooks';
import { Choice } from '../shell/choice';
import { words } from '../words';
import { readPicture } from './api';
import { FlatFace } from './flat_face';
import { type FacePicture, type PracticeRun, SIDES, type Side } from './model';
import { micrometres, whole } from './numbers';
import { heightSpan, TIMES, timesFor } from './relief_grid';
import { ReliefView } from './relief_view';
import type { AtBench } from './use_run';

const ANGLES = 180;
const RINGS = 24;
/** While it turns, a new picture at most so often. */
const EVERY_MS = 1500;
/** Where the shop had none to give, as while it sets up other benches, it is asked again so much later. */
const LATER_MS = 4000;

/** The face as it is now: a relief, or flat where the browser has none; asked for when it is looked at. */
export function FacePanel({ run, answers }: Pick<AtBench, 'run' | 'answers'>) {
  const { face: said, side: sides } = words.practice_bench;
  const [side, setSide] = useState<Side>('outboard');
  const [chosen_times, setTimes] = useState<number | null>(null);
  const first_times = useRef<number | null>(null);
  const [flat, setFlat] = useState(false);
  const picture = usePicture(run, answers, side);
  if (picture) first_times.current ??= timesFor(picture);
  const times = chosen_times ?? first_times.current ?? TIMES.usual;
  return (
    <section class="bench-face" aria-label={said.title}>
      <h2>{said.title}</h2>
      <Choice
        label={said.side}
        value={side}
        options={SIDES.map((value) => ({ value, label: sides[value] }))}
        onChange={setSide}
      />
      {picture === null ? <p class="soft bench-face-room">{said.loading}</p> : null}
      {picture && !flat ? (
        <>
          <ReliefView picture={picture} times={times} rpm={run.view.rpm} onNone={() => setFlat(true)} />
          <label class="bench-slider">
            <span>
              {said.slider}: <span class="figures">{said.times(whole(times))}</span>
            </span>
            <input
              type="range"
              min={TIMES.least}
              max={TIMES.most}
              step={TIMES.least}
              value={times}
              onInput={(event) => setTimes(Number(event.currentTarget.value))}
            />
          </label>
          <p class="small soft">{said.keys}</p>
        </>
      ) : null}
      {picture && flat ? (
        <>
          <p class="small soft">{said.flat}</p>
          <FlatFace picture={picture} />
        </>
      ) : null}
      {picture ? <p class="figures small">{said.span(micrometres(heightSpan(picture)))}</p> : null}
    </section>
  );
}

function usePicture(run: PracticeRun, answers: number, side: Side): FacePicture | null {
  const [shown, setShown] = useState<{ side: Side; picture: FacePicture } | null>(null);
  const [asked_again, askAgain] = useState(0);
  const asked = useRef({ busy: false, missed: false, at_ms: Number.NEGATIVE_INFINITY, side });
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const turning = run.view.rpm > 0;
  useEffect(() => () => clearTimeout(timer.current), []);
  useEffect(() => {
    const now = asked.current;
    const due = now.side !== side || performance.now() - now.at_ms >= EVERY_MS;
    if (now.busy) now.missed = true;
    if (now.busy || (turning && !due)) return;
    asked.current = { busy: true, missed: false, at_ms: performance.now(), side };
    clearTimeout(timer.current);
    readPicture(run.id, side, ANGLES, RINGS)
      .then((picture) => setShown({ side, picture }))
      // The last picture stands meanwhile.
      .catch(() => {
        timer.current = setTimeout(() => askAgain((n) => n + 1), LATER_MS);
      })
      .finally(() => {
        asked.current.busy = false;
        if (asked.current.missed) askAgain((n) => n + 1);
      });
  }, [answers, side, turning, asked_again]);
  return shown?.side === side ? shown.picture : null;
}
