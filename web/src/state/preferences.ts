import { effect, signal } from '@preact/signals';

/** What this tablet prefers: kept on the tablet, never sent. */
export type Theme = 'system' | 'light' | 'dark';
export type Hand = 'right' | 'left';
export type Bench = 'off' | 'on';

function kept<T extends string>(name: string, allowed: readonly T[], otherwise: T) {
  const key = `brakewright/${name}`;
  const found = localStorage.getItem(key) as T | null;
  const preference = signal<T>(found && allowed.includes(found) ? found : otherwise);
  effect(() => localStorage.setItem(key, preference.value));
  return preference;
}

export const theme = kept<Theme>('theme', ['system', 'light', 'dark'], 'system');
/** On which side the next step and the keypad lie. */
export const hand = kept<Hand>('hand', ['right', 'left'], 'right');

/** Larger controls, for gloves and wet fingers. */
export const bench = kept<Bench>('bench', ['off', 'on'], 'off');

/** Whether the practice bench is heard, once a finger has started it. */
export const benchSound = kept<'on' | 'off'>('bench-sound', ['on', 'off'], 'on');

/** Writes the preferences on the page's root, and follows the system's theme where none is chosen. */
export function applyPreferences(root: HTMLElement, systemDark: MediaQueryList): void {
  const dark = signal(systemDark.matches);
  systemDark.addEventListener('change', (event) => {
    dark.value = event.matches;
  });
  effect(() => {
    root.dataset.theme = theme.value === 'system' ? (dark.value ? 'dark' : 'light') : theme.value;
    root.dataset.hand = hand.value;
    root.dataset.bench = bench.value;
  });
}
