/** 30 frames a second; a little more is let pass. */
const WANTED_GAP_MS = 1000 / 30;
const LOOKED_AT = 12;
const COARSER = 0.75;
const LEAST = 0.35;

/** How sharp a moving picture may be drawn, as a share of each side's pixels: a browser that cannot keep up draws coarser. */
export class Pace {
  sharpness = 1;
  private gaps_ms: number[] = [];

  /** One picture after another; true when the sharpness has changed. The longest gap does not count: it has its reasons. */
  frame(gap_ms: number): boolean {
    this.gaps_ms.push(gap_ms);
    if (this.gaps_ms.length < LOOKED_AT) return false;
    const counted = this.gaps_ms.sort((a, b) => a - b).slice(0, -1);
    this.gaps_ms = [];
    const mean_ms = counted.reduce((sum, one) => sum + one, 0) / counted.length;
    if (mean_ms <= WANTED_GAP_MS || this.sharpness <= LEAST) return false;
    this.sharpness = Math.max(LEAST, this.sharpness * COARSER);
    return true;
  }
}
