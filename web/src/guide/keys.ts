import { useLayoutEffect, useRef } from 'preact/hooks';

export interface BenchKeys {
  done?: (() => void) | undefined;
  pause?: (() => void) | undefined;
  wrong?: (() => void) | undefined;
}

/** Where a key is going: to the guide, or to something that wants it for itself. */
export type KeyTarget = 'page' | 'main' | 'control' | 'typing' | 'dialog';

export function targetOf(element: EventTarget | null): KeyTarget {
  if (!(element instanceof HTMLElement)) return 'page';
  if (element.closest('dialog[open]')) return 'dialog';
  if (element.matches('input, textarea, select')) return 'typing';
  if (element.matches('button.main')) return 'main';
  return element.matches('button, a[href], summary, [role="radio"], [role="slider"]') ? 'control' : 'page';
}

/** Enter is done, space is pause, Esc is "something is wrong"; a key held down counts once. */
export function meaning(key: string, target: KeyTarget): keyof BenchKeys | null {
  if (target === 'dialog') return null;
  if (key === 'Escape') return 'wrong';
  if (key === ' ') return target === 'typing' ? null : 'pause';
  if (key === 'Enter') return target === 'control' ? null : 'done';
  return null;
}

/** What a key does here; null where it means nothing, or nobody does what it means: then it is left to the page. */
export function taken(key: string, target: KeyTarget, keys: BenchKeys): keyof BenchKeys | null {
  const meant = meaning(key, target);
  return meant && keys[meant] ? meant : null;
}

export function useBenchKeys(keys: BenchKeys): void {
  const latest = useRef(keys);
  latest.current = keys;
  useLayoutEffect(() => {
    let space_taken = false;
    const hear = (event: KeyboardEvent) => {
      const meant = taken(event.key, targetOf(event.target), latest.current);
      if (event.key === ' ') space_taken = meant !== null;
      if (!meant) return;
      event.preventDefault();
      event.stopPropagation();
      if (!event.repeat) latest.current[meant]?.();
    };
    // A button answers a space when it is let go: one that was taken must not press it as well.
    const letGo = (event: KeyboardEvent) => {
      if (event.key !== ' ') return;
      if (space_taken) event.preventDefault();
      space_taken = false;
    };
    window.addEventListener('keydown', hear, true);
    window.addEventListener('keyup', letGo, true);
    return () => {
      window.removeEventListener('keydown', hear, true);
      window.removeEventListener('keyup', letGo, true);
    };
  }, []);
}
