import { useEffect, useRef } from 'preact/hooks';
import { goesOn, type Pace, STEP_MS, turnsOf } from './turning';
import type { AtBench } from './use_run';

/** Lets the spindle turn on, step by step, as long as it turns and the page is seen; a step waits for the one before, and a refused one is the last. */
export function useTurning(at: AtBench, pace: Pace): void {
  const latest = useRef({ at, pace });
  latest.current = { at, pace };
  const turning = at.run.view.rpm > 0 && !at.run.view.ended;
  useEffect(() => {
    if (!turning) return undefined;
    const timer = setInterval(() => {
      const { at: bench, pace: now } = latest.current;
      const { view } = bench.run;
      if (!goesOn(view, document.visibilityState === 'visible', bench.isIdle(), bench.refusal?.act.do ?? null)) return;
      bench.act({ do: 'turns', turns: turnsOf(view.rpm, now) });
    }, STEP_MS);
    return () => clearInterval(timer);
  }, [turning]);
}
