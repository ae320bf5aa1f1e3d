import type { CalcDiscModesOutput, CalcOutlookInput } from '../api/schema';
import type { Figures } from './figures';

export type Tone = NonNullable<CalcDiscModesOutput['ring']>['tones'][number];

/** What was heard in the taps: of the disc alone, and with its band on. */
export interface Taps {
  off: Tone[] | null;
  on: Tone[] | null;
}
export const NO_TAPS: Taps = { off: null, on: null };

/** The tones of the disc alone; null where no tap without the band had any. */
export const aloneHeard = (taps: Taps): Tone[] | null => (taps.off?.length ? taps.off : null);

/** The tone that would sing first: depth goes as the damping and the square of the frequency. */
export function firstToSing(tones: readonly Tone[]): Tone | null {
  const ringing = tones.filter((one) => one.zeta > 0 && one.hz > 0);
  const ease = (one: Tone) => one.zeta * one.hz ** 2;
  return ringing.reduce<Tone | null>((best, one) => (best === null || ease(one) < ease(best) ? one : best), null);
}

/** The tone that was picked of those that are offered. */
export const pickedOf = (taps: Taps, hz: number | null): Tone | null =>
  (aloneHeard(taps) ?? taps.on ?? []).find((one) => one.hz === hz) ?? null;

/** A band moves a tone no further than this. Common practice, no source. */
const SAME_TONE = 0.1;

/** What the band multiplies the damping of a tone by, from a tap with it on; null where that has no such tone. */
export function bandHeard(tone: Tone, on: readonly Tone[] | null): number | null {
  const near = (on ?? [])
    .filter((one) => Math.abs(one.hz / tone.hz - 1) <= SAME_TONE && one.zeta > 0)
    .sort((a, b) => Math.abs(a.hz - tone.hz) - Math.abs(b.hz - tone.hz));
  const [same] = near;
  return same ? Math.max(1, same.zeta / tone.zeta) : null;
}

export type Way = 'size' | 'tap' | 'marks';

/** What is known of the disc's tone, by each way to it. */
export interface Heard {
  by_size_hz: number | null;
  tone: Tone | null;
  /** The tone was heard with the band on: no tap without it is there. */
  with_band: boolean;
  band_times: number | null;
  /** Of marks that the disc itself has left. */
  marks_hz: number | null;
}

export type Ring = CalcOutlookInput['ring'];

/** The ring that is counted with: by the way that was chosen where it has told something, else by size. */
export function ringOf(way: Way, heard: Heard, figures: Figures): Ring | null {
  const assumed = { zeta: figures.damping_percent / 100, band_factor: figures.band_times };
  if (way === 'tap' && heard.tone) {
    const { hz, zeta, u_zeta } = heard.tone;
    return {
      by: 'tap',
      hz,
      zeta,
      u_zeta,
      band_factor: heard.band_times ?? figures.band_times,
      band_heard: heard.band_times !== null,
      heard_with_band: heard.with_band,
    };
  }
  if (way === 'marks' && heard.marks_hz !== null) return { by: 'marks', hz: heard.marks_hz, ...assumed };
  return heard.by_size_hz === null ? null : { by: 'size', hz: heard.by_size_hz, ...assumed };
}

/** The damping of a ring without its band, per cent of critical. */
export const barePercent = ({ zeta, band_factor, heard_with_band }: Ring): number =>
  (100 * zeta) / (heard_with_band ? band_factor : 1);
