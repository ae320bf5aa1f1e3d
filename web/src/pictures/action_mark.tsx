import type { Action } from '../api/schema';

/**
 * The four words as shapes, all drawn from the rotor's own edge, so that they are told apart without colour: whole metal
 * is left, metal that two points close on is cut, broken metal is replaced, metal between two anvils is measured.
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

/** The rotor's edge in section, as the lathe and the micrometer meet it. */
const edge = <rect x="22" y="4" width="12" height="48" />;

const SHAPES = {
  leave: <rect x="22" y="4" width="12" height="48" fill="currentColor" />,
  cut: (
    <>
      {edge}
      <path d="M2 19 L17 28 L2 37 Z M54 19 L39 28 L54 37 Z" fill="currentColor" stroke="none" />
    </>
  ),
  replace: <path d="M22 24 V4 H34 V18 L28 24 Z M22 52 V38 L28 32 L34 38 V52 Z M10 40 L46 16" />,
  measure_again: (
    <>
      {edge}
      <path d="M2 28 H16 M16 20 V36 M54 28 H40 M40 20 V36" />
    </>
  ),
} as const;
