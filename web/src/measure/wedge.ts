/**
 * Tells a gauge with a data cable from a hand. To the page such a gauge is a keyboard that types its reading in a burst
 * and ends it with Enter or Tab; no hand strikes keys that fast. Fed with every key, wherever the focus is.
 */
export interface Burst {
  text: string;
  /** When the first key of the burst came. */
  began_ms: number;
}

export interface BurstSettings {
  /** Longest time between two keys of one burst. */
  gap_ms: number;
  /** Fewest characters of a reading. */
  least: number;
}

// Common practice, no source: keyboards of this kind send a key every few milliseconds, a fast typist every 60 or more.
export const BURST: BurstSettings = { gap_ms: 45, least: 2 };

const HAS_DIGIT = /[0-9]/;

export class BurstDetector {
  private text = '';
  private began_ms = 0;
  private last_ms = Number.NEGATIVE_INFINITY;

  constructor(private readonly settings: BurstSettings = BURST) {}

  /** The whole burst when this key ends one, null otherwise. Keys that type nothing (Shift, ...) do not interrupt. */
  feed(key: string, at_ms: number): Burst | null {
    const ends = key === 'Enter' || key === 'Tab' || key === '\n' || key === '\r';
    if (!ends && key.length !== 1) return null;
    const goesOn = this.joins(at_ms);
    if (ends) {
      const burst = goesOn && this.isReading() ? { text: this.text.trim(), began_ms: this.began_ms } : null;
      this.forget();
      return burst;
    }
    if (!goesOn) {
      this.text = '';
      this.began_ms = at_ms;
    }
    this.text += key;
    this.last_ms = at_ms;
    return null;
  }

  /** True when a key at this moment follows the one before as fast as a gauge's would. */
  joins(at_ms: number): boolean {
    return at_ms - this.last_ms <= this.settings.gap_ms;
  }

  forget(): void {
    this.text = '';
    this.last_ms = Number.NEGATIVE_INFINITY;
  }

  private isReading(): boolean {
    return this.text.trim().length >= this.settings.least && HAS_DIGIT.test(this.text);
  }
}
