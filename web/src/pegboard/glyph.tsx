import type { PieceKind } from '../api/schema';

/** A piece's kind in section, upper half over its axis: a shape to be found by, beside its word. */
const SHAPES: Record<PieceKind, string> = {
  cone: 'M4 30 V22 L30 8 H36 V30 Z',
  clamp: 'M4 30 V18 H16 V6 H36 V14 H22 V24 H36 V30 Z',
  spring: 'M4 28 L8 10 L14 28 L20 10 L26 28 L32 10 L36 28',
  taper: 'M4 30 V10 H12 L36 20 V30 Z',
  spacer: 'M10 30 V12 H30 V30 Z',
  nut: 'M6 30 V14 L10 10 H30 L34 14 V30 Z M6 22 H34',
};

export function Glyph({ kind }: { kind: PieceKind }) {
  return (
    <svg class={`glyph glyph-${kind}`} viewBox="0 0 40 36" aria-hidden="true">
      <path d={SHAPES[kind]} />
      <line x1="0" x2="40" y1="34" y2="34" />
    </svg>
  );
}
