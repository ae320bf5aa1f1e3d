import { doors, leave } from '../state/doors';

/** How long nobody has touched this tablet, and the end of a session for that. */
const LOOK_EVERY_MS = 5_000;
const TOUCHES = ['pointerdown', 'keydown', 'wheel'] as const;

let touchedAt = Date.now();

export const idle_s = () => Math.max(0, (Date.now() - touchedAt) / 1000);

export function touched(): void {
  touchedAt = Date.now();
}

export function watchIdle(): void {
  for (const name of TOUCHES) window.addEventListener(name, touched, { capture: true, passive: true });
  setInterval(() => {
    const you = doors.value?.you;
    if (you && idle_s() >= you.idle_minutes * 60) void leave('idle');
  }, LOOK_EVERY_MS);
}
