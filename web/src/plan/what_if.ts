import type { Lathe, PlannedPass } from '../api/schema';
import type { Face } from '../guide/faces';
import type { Dials } from '../show/dials';

/** Passes as they are tried out: pure changes, and how far each setting goes. */
export type Setting = keyof PlannedPass;

const FACES: readonly Face[] = ['outboard', 'inboard'];
const MOST_MARKS = 60;
const ROOM_MARKS = 6;

/** Only what is set, without what was foreseen. */
export const settingsOf = (passes: readonly PlannedPass[]): PlannedPass[] =>
  passes.map(({ outboard_marks, inboard_marks, rpm, feed_mm_per_rev }) => ({
    outboard_marks,
    inboard_marks,
    rpm,
    feed_mm_per_rev,
  }));

export const same = (a: readonly PlannedPass[], b: readonly PlannedPass[]): boolean =>
  JSON.stringify(settingsOf(a)) === JSON.stringify(settingsOf(b));

export function changed(passes: readonly PlannedPass[], at: number, setting: Setting, value: number): PlannedPass[] {
  return settingsOf(passes).map((pass, i) => (i === at ? { ...pass, [setting]: value } : pass));
}

/** The values that a setting may take: whole marks, or what the lathe has; what is set now is always among them. */
export function choicesOf(setting: Setting, now: number, lathe: Lathe | null): number[] {
  if (setting === 'outboard_marks' || setting === 'inboard_marks') {
    return Array.from({ length: Math.min(MOST_MARKS, Math.max(12, now + ROOM_MARKS)) + 1 }, (_, i) => i);
  }
  const known = (setting === 'rpm' ? lathe?.speeds_rpm : lathe?.feeds_mm_per_rev) ?? [];
  return [...new Set([...known, now])].sort((a, b) => a - b);
}

/** One more pass after the last, as a light last one is set. */
export function withOneMore(
  passes: readonly PlannedPass[],
  lathe: Lathe | null,
  faces: readonly Face[] = FACES,
): PlannedPass[] {
  const last = passes.at(-1);
  const feeds = choicesOf('feed_mm_per_rev', last?.feed_mm_per_rev ?? lathe?.feeds_mm_per_rev?.[0] ?? 0.05, lathe);
  const speeds = choicesOf('rpm', last?.rpm ?? lathe?.speeds_rpm?.[0] ?? 100, lathe);
  const next = {
    outboard_marks: faces.includes('outboard') ? 2 : 0,
    inboard_marks: faces.includes('inboard') ? 2 : 0,
    rpm: last?.rpm ?? (speeds[0] as number),
    feed_mm_per_rev: feeds[0] as number,
  };
  return [...settingsOf(passes), next];
}

export const without = (passes: readonly PlannedPass[], at: number): PlannedPass[] =>
  settingsOf(passes).filter((_, i) => i !== at);

export interface Layer {
  pass: number;
  face: Face;
  /** Depths under the face as it is before the cut, micrometres. */
  from_um: number;
  to_um: number;
}

/** What each pass takes off each face, one upon the other. */
export function layersOf(passes: readonly PlannedPass[], dials: Dials, faces: readonly Face[] = FACES): Layer[] {
  return faces.flatMap((face) => {
    let depth_um = 0;
    return passes.map((pass, i) => {
      const from_um = depth_um;
      depth_um += pass[`${face}_marks`] * dials[`${face}_um`];
      return { pass: i, face, from_um, to_um: depth_um };
    });
  });
}
