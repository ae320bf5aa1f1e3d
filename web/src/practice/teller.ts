import { SIDES, type Side } from './model';
import type { Touch } from './spoken';

/** What is told first, where several things changed. */
const FIRST: readonly Touch[] = ['sings', 'rubs', 'once', 'round', 'part', 'air'];

export interface Told {
  side: Side;
  touch: Touch;
}

/** At most one thing is told in so long. */
export const APART_MS = 3000;

/**
 * Picks what a screen reader is told of both tools: of what changed since it was told the most important thing, and only
 * if it still stands.
 */
export class Teller {
  private told_ms = Number.NEGATIVE_INFINITY;

  constructor(private told: Record<Side, Touch>) {}

  /** What is to be told now; else when to ask again, and nothing where all is told. */
  next(now: Record<Side, Touch>, at_ms: number): Told | { in_ms: number } | null {
    const [first] = SIDES.filter((side) => now[side] !== this.told[side]).sort(
      (a, b) => FIRST.indexOf(now[a]) - FIRST.indexOf(now[b]),
    );
    if (!first) return null;
    const in_ms = this.told_ms + APART_MS - at_ms;
    if (in_ms > 0) return { in_ms };
    this.told_ms = at_ms;
    this.told = { ...this.told, [first]: now[first] };
    return { side: first, touch: now[first] };
  }
}
