import { useEffect, useRef } from 'preact/hooks';
import { Figure } from '../pictures/figure';
import { theme } from '../state/preferences';
import { words } from '../words';
import type { FacePicture } from './model';
import { clamped, micrometres } from './numbers';
import { heightSpan } from './relief_grid';
import { Pace } from './relief_pace';
import type { Relief } from './relief_scene';

interface Props {
  picture: FacePicture;
  times: number;
  rpm: number;
  /** The browser draws no relief. */
  onNone: () => void;
}

const [ROUND_DEG, UP_DEG] = [0, 52];
const STEP_DEG = 10;
const DEG_PER_PX = 0.5;
const KEYS: Record<string, [round: number, up: number]> = {
  ArrowLeft: [-STEP_DEG, 0],
  ArrowRight: [STEP_DEG, 0],
  ArrowUp: [0, STEP_DEG],
  ArrowDown: [0, -STEP_DEG],
};

const colour = (name: string) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

const still = () => window.matchMedia('(prefers-reduced-motion: reduce)').matches;

/** The face turns so much slower than the spindle that it can be looked at. */
const SLOWER = 10;
const DEG_PER_MS = 360 / 60_000;

/** Turns the face with the spindle, picture by picture, as sharp as the browser keeps up; answers how to end it. */
function spun(relief: { current: Relief | null }, rpm: number): () => void {
  let frame = 0;
  let begun_ms = 0;
  let last_ms = 0;
  const pace = new Pace();
  const next = (now_ms: number) => {
    begun_ms ||= now_ms;
    if (last_ms > 0 && pace.frame(now_ms - last_ms)) relief.current?.sharpen(pace.sharpness);
    last_ms = now_ms;
    relief.current?.turn(((now_ms - begun_ms) * DEG_PER_MS * rpm) / SLOWER);
    frame = requestAnimationFrame(next);
  };
  frame = requestAnimationFrame(next);
  return () => {
    cancelAnimationFrame(frame);
    relief.current?.sharpen(1);
  };
}

/** The face as a relief that one can go round. It turns with the spindle, unless the tablet asks for less motion. */
export function ReliefView({ picture, times, rpm, onNone }: Props) {
  const { face: said } = words.practice_bench;
  const canvas = useRef<HTMLCanvasElement>(null);
  const relief = useRef<Relief | null>(null);
  const eye = useRef({ round: ROUND_DEG, up: UP_DEG });
  const latest = useRef({ picture, times });
  latest.current = { picture, times };
  const drag = useRef<{ x: number; y: number } | null>(null);

  useEffect(() => {
    let gone = false;
    const watcher = new ResizeObserver(() => fit(canvas.current, relief.current));
    const open = async () => {
      const { openRelief } = await import('./relief_scene');
      const place = canvas.current;
      if (gone || !place) return;
      const [low, mid, high] = ['--deviation-low', '--metal', '--deviation-high'].map(colour);
      relief.current = openRelief(place, { low: low ?? '', mid: mid ?? '', high: high ?? '' });
      fit(place, relief.current);
      relief.current.look(eye.current.round, eye.current.up);
      relief.current.show(latest.current.picture, latest.current.times);
      place.dataset.drawn = 'true';
      watcher.observe(place);
    };
    open().catch(() => {
      if (!gone) onNone();
    });
    return () => {
      gone = true;
      watcher.disconnect();
      relief.current?.close();
      relief.current = null;
    };
  }, [theme.value]);
  useEffect(() => relief.current?.show(picture, times), [picture, times]);
  useEffect(() => (rpm > 0 && !still() ? spun(relief, rpm) : undefined), [rpm]);

  const turn = (round: number, up: number) => {
    eye.current = { round: eye.current.round + round, up: clamped(eye.current.up + up, 5, 89) };
    relief.current?.look(eye.current.round, eye.current.up);
  };
  return (
    <Figure name={said.relief} kind="relief" says={said.span(micrometres(heightSpan(picture)))}>
      <canvas
        key={theme.value}
        ref={canvas}
        class="relief"
        role="img"
        tabIndex={0}
        aria-label={`${said.relief}. ${said.keys}`}
        onKeyDown={(event) => {
          const step = KEYS[event.key];
          if (!step) return;
          event.preventDefault();
          turn(...step);
        }}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture?.(event.pointerId);
          drag.current = { x: event.clientX, y: event.clientY };
        }}
        onPointerMove={(event) => {
          if (!drag.current) return;
          turn((drag.current.x - event.clientX) * DEG_PER_PX, (event.clientY - drag.current.y) * DEG_PER_PX);
          drag.current = { x: event.clientX, y: event.clientY };
        }}
        onPointerUp={() => {
          drag.current = null;
        }}
      />
    </Figure>
  );
}

function fit(canvas: HTMLCanvasElement | null, relief: Relief | null): void {
  if (canvas && relief) relief.resize(canvas.clientWidth, canvas.clientHeight);
}
