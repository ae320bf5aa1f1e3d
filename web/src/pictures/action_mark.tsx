import type { Action } from '../api/schema';

/**
 * The four words as shapes, all drawn from the rotor's own ring, so that they are told apart without colour:
 * a whole ring is left, a ring that two tools close on is cut, a broken ring is replaced, a ring of points is measured.
 */
export function ActionMark({ action, size = 56 }: { action: Action; size?: number }) {
  return (
    <svg class="action-mark" width={size} height={size} viewBox="0 0 56 56" aria-hidden="true" focusable="false">
      <g fill="none" stroke="currentColor" stroke-width="4">
        {SHAPES[action]}
      </g>
    </svg>
  );
}

const points = Array.from({ length: 8 }, (_, i) => {
  const turn = (i * Math.PI) / 4;
  return (
    <circle
      key={i}
      cx={28 + 20 * Math.sin(turn)}
      cy={28 - 20 * Math.cos(turn)}
      r="3.4"
      stroke="none"
      fill="currentColor"
    />
  );
});

const SHAPES = {
  leave: (
    <>
      <circle cx="28" cy="28" r="21" />
      <circle cx="28" cy="28" r="8" />
    </>
  ),
  cut: (
    <>
      <rect x="23" y="4" width="10" height="48" />
      <path d="M4 20 L17 28 L4 36 Z M52 20 L39 28 L52 36 Z" fill="currentColor" stroke="none" />
    </>
  ),
  replace: (
    <>
      <path d="M20 8.5 A21 21 0 0 0 20 47.5 M36 8.5 A21 21 0 0 1 36 47.5" />
      <path d="M32 4 L24 20 L32 28 L24 36 L30 52" stroke-width="3" />
    </>
  ),
  measure_again: (
    <>
      {points}
      <circle cx="28" cy="28" r="8" />
    </>
  ),
} as const;
