/** A frequency from taps with the thumb, one to each pulse (or to every second, third...). */
export interface Tapped {
  hz: number;
  /** Standard uncertainty: of the thumb, from how unevenly it came. */
  u_hz: number;
  taps: number;
  seconds: number;
}

export const FEWEST_TAPS = 6;
/** After so long without one, the next tap begins a new count. */
export const PAUSE_MS = 2500;
/** No thumb is steadier than this from one tap to the next: common practice, no source. */
const LEAST_SD_MS = 10;

/** The taps that count, with one more. */
export function withTap(times_ms: readonly number[], now_ms: number): number[] {
  const last = times_ms.at(-1);
  return last === undefined || now_ms - last > PAUSE_MS || now_ms <= last ? [now_ms] : [...times_ms, now_ms];
}

const middle = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

/**
 * The line of least squares through the taps' times, by their number; a gap as long as several counts as so many, for a
 * tap that was missed. Null while there are too few.
 * @param every how many pulses go to one tap
 */
export function frequencyOf(times_ms: readonly number[], every = 1): Tapped | null {
  const n = times_ms.length;
  if (n < FEWEST_TAPS) return null;
  const gaps = times_ms.slice(1).map((time, i) => time - (times_ms[i] ?? 0));
  const usual = middle(gaps);
  if (usual <= 0) return null;
  const numbers = [0];
  for (const gap of gaps) numbers.push((numbers.at(-1) ?? 0) + Math.max(1, Math.round(gap / usual)));
  const mean_k = numbers.reduce((sum, k) => sum + k, 0) / n;
  const mean_t = times_ms.reduce((sum, t) => sum + t, 0) / n;
  let across = 0;
  let along = 0;
  for (const [i, k] of numbers.entries()) {
    across += (k - mean_k) ** 2;
    along += (k - mean_k) * ((times_ms[i] ?? 0) - mean_t);
  }
  const period_ms = along / across;
  const left = numbers.reduce((sum, k, i) => sum + ((times_ms[i] ?? 0) - mean_t - period_ms * (k - mean_k)) ** 2, 0);
  const sd_ms = Math.max(LEAST_SD_MS, Math.sqrt(left / (n - 2)));
  const hz = (1000 * every) / period_ms;
  return {
    hz,
    u_hz: (hz * sd_ms) / Math.sqrt(across) / period_ms,
    taps: n,
    seconds: ((times_ms.at(-1) ?? 0) - (times_ms[0] ?? 0)) / 1000,
  };
}
