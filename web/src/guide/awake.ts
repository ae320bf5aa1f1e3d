import { useEffect, useState } from 'preact/hooks';

/** Browsers give a wake lock only to pages that came over https or from this very machine. */
export function canStayAwake(page: { isSecureContext: boolean; navigator: object }): boolean {
  return page.isSecureContext && 'wakeLock' in page.navigator;
}

/** Keeps the screen on while it is shown, and asks again when the page comes back to the front. */
export function useAwake(): 'asked' | 'kept' | 'not' {
  const [state, setState] = useState<'asked' | 'kept' | 'not'>(canStayAwake(window) ? 'asked' : 'not');
  useEffect(() => {
    if (!canStayAwake(window)) return undefined;
    let lock: WakeLockSentinel | null = null;
    let gone = false;
    const ask = () => {
      if (document.visibilityState !== 'visible' || (lock && !lock.released)) return;
      navigator.wakeLock.request('screen').then(
        (got) => {
          if (gone) void got.release();
          else lock = got;
          setState('kept');
        },
        () => setState('not'),
      );
    };
    ask();
    document.addEventListener('visibilitychange', ask);
    return () => {
      gone = true;
      document.removeEventListener('visibilitychange', ask);
      void lock?.release();
    };
  }, []);
  return state;
}

/** The time at this drawing; drawn again so often while `running`. */
export function useNow(running: boolean, every_ms = 250): number {
  const [, drawAgain] = useState(0);
  useEffect(() => {
    if (!running) return undefined;
    const timer = setInterval(() => drawAgain((times) => times + 1), every_ms);
    return () => clearInterval(timer);
  }, [running, every_ms]);
  return Date.now();
}
