import type { Corner, Insert } from '../api/schema';

/** One corner of an insert, on record or not touched yet. */
export interface CornerLine {
  number: number;
  corner: Corner | null;
  used_m: number;
  condition: Corner['condition'];
}

export function cornersOf(insert: Pick<Insert, 'id' | 'corners'>, corners: readonly Corner[]): CornerLine[] {
  return Array.from({ length: insert.corners }, (_, i) => {
    const number = i + 1;
    const corner = corners.find((one) => one.insert_id === insert.id && one.number === number) ?? null;
    return { number, corner, used_m: corner?.used_m ?? 0, condition: corner?.condition ?? 'sharp' };
  });
}

/** The corner that cuts: the sharp one that has cut most, or the first sharp one; null when none is sharp. */
export function cornerInUse(lines: readonly CornerLine[]): CornerLine | null {
  const sharp = lines.filter((line) => line.condition === 'sharp');
  return sharp.reduce<CornerLine | null>((best, line) => (!best || line.used_m > best.used_m ? line : best), null);
}

/** The next corner to turn to: the first sharp one that is not the one in use. */
export function cornerAfter(lines: readonly CornerLine[], inUse: CornerLine | null): CornerLine | null {
  return lines.find((line) => line.condition === 'sharp' && line.number !== inUse?.number) ?? null;
}
