import { niceStep } from '../pictures/ladder';

/** Where depths and speeds lie in the chart, pixels. */
export interface Plane {
  width: number;
  height: number;
  left: number;
  right: number;
  top: number;
  bottom: number;
  most_mm: number;
  least_rpm: number;
  most_rpm: number;
}

export const SHOWN_MM = 0.5;

export const xOf = (plane: Plane, rpm: number): number =>
  plane.left +
  ((rpm - plane.least_rpm) / (plane.most_rpm - plane.least_rpm)) * (plane.width - plane.left - plane.right);

/** Depths grow upwards, and what is off the chart lies on its edge. */
export const yOf = (plane: Plane, mm: number): number => {
  const share = Math.min(Math.max(mm / plane.most_mm, 0), 1);
  return plane.height - plane.bottom - share * (plane.height - plane.top - plane.bottom);
};

export const depthAt = (plane: Plane, y: number): number =>
  ((plane.height - plane.bottom - y) / (plane.height - plane.top - plane.bottom)) * plane.most_mm;

const AROUND = 0.25;
const STEPS = 60;

/** The speeds that are drawn over: a quarter beyond the lathe's own to either side. */
export function rangeOf(speeds_rpm: readonly number[]): { least_rpm: number; most_rpm: number } {
  return { least_rpm: Math.min(...speeds_rpm) * (1 - AROUND), most_rpm: Math.max(...speeds_rpm) * (1 + AROUND) };
}

/** Those speeds in even steps, and the lathe's own behind them. */
export function askedSpeeds(speeds_rpm: readonly number[]): { curve: number[]; all: number[] } {
  const { least_rpm, most_rpm } = rangeOf(speeds_rpm);
  const curve = Array.from({ length: STEPS + 1 }, (_, i) => least_rpm + ((most_rpm - least_rpm) * i) / STEPS);
  return { curve, all: [...curve, ...speeds_rpm] };
}

export function line(plane: Plane, rpm: readonly number[], mm: readonly (number | null)[]): string {
  return rpm
    .map((one, i) => `${i ? 'L' : 'M'}${xOf(plane, one).toFixed(1)} ${yOf(plane, mm[i] ?? Infinity).toFixed(1)}`)
    .join('');
}

/** What lies between two lines. */
export function between(
  plane: Plane,
  rpm: readonly number[],
  low: readonly (number | null)[],
  high: readonly (number | null)[],
): string {
  const back = [...rpm].reverse().map((one, i) => {
    const mm = low[rpm.length - 1 - i] ?? Infinity;
    return `L${xOf(plane, one).toFixed(1)} ${yOf(plane, mm).toFixed(1)}`;
  });
  return `${line(plane, rpm, high)}${back.join('')}Z`;
}

/** Depths written beside the chart, from none to the top. */
export function ticksOf(most_mm: number): number[] {
  const step = niceStep(most_mm, 5);
  return Array.from({ length: Math.floor(most_mm / step + 1e-9) + 1 }, (_, i) => i * step);
}

const LEAST_ROOM = 20;

/** Where the word of a region stands: in the middle of it, clear of the line at `y`, or nowhere where it has no room. */
export function wordAt(top: number, bottom: number, y: number): number | null {
  const middle = (top + bottom) / 2;
  const across = y > top && y < bottom && Math.abs(y - middle) < LEAST_ROOM;
  const [from, to] = !across ? [top, bottom] : y > middle ? [top, y] : [y, bottom];
  return to - from < LEAST_ROOM ? null : (from + to) / 2 + 5;
}
