import type { Assessment, Lathe } from '../api/schema';
import { words } from '../words';
import { type HowShown, lengthOfMm } from './length';

/** What a mark of each dial takes off its face. */
export interface Dials {
  outboard_um: number;
  inboard_um: number;
}

/** Depth of one mark on a dial that nobody has told of: a thousandth of an inch, as the shop reckons with as well. */
const UNTOLD_DIAL_UM = 25.4;

/** As they were typed for the lathe. */
export const typedDials = (lathe: Lathe | null | undefined): Dials => {
  const outboard_um = lathe?.dial_um_per_mark ?? UNTOLD_DIAL_UM;
  return { outboard_um, inboard_um: lathe?.dial_inboard_um_per_mark ?? outboard_um };
};

type Bench = Assessment['bench'];

/** As the shop reckons with them for this job: what the lathe's finished jobs say, where they say it; else as typed. */
export const dialsOf = (bench: Bench | undefined, lathe: Lathe | null | undefined): Dials =>
  bench ? { outboard_um: bench.dial_um_per_mark, inboard_um: bench.dial_inboard_um_per_mark } : typedDials(lathe);

/** The dials that turn a part of this kind: a drum is bored by one tool, whose dial stands as the outboard one. */
const turned = ({ outboard_um, inboard_um }: Dials, drum: boolean): number[] =>
  drum ? [outboard_um] : [outboard_um, inboard_um];

/** Whether the shop reckons with other marks than were typed. */
export function areMeasured(dials: Dials, lathe: Lathe | null | undefined, drum: boolean): boolean {
  const typed = turned(typedDials(lathe), drum);
  return turned(dials, drum).some((um, i) => um !== typed[i]);
}

/** A mark in words: one depth where all dials that turn the part agree, else each by its side. */
export function markInWords(dials: Dials, drum: boolean, how: HowShown): string {
  const [outboard = '', inboard = outboard] = turned(dials, drum).map((um) => lengthOfMm(um / 1000, how));
  return outboard === inboard ? outboard : words.dials.each(outboard, inboard);
}
