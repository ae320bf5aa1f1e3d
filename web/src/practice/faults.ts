import type { Fault } from './model';

/** All that can be wrong at a bench, in the order in which it is offered: of the part, of the mount, of the tools, of the measuring. */
const ORDER: Record<Fault, number> = {
  thin: 0,
  thickness_waves: 1,
  wobble: 2,
  grooves: 3,
  lip: 4,
  hard_spots: 5,
  taper: 6,
  uneven_cheeks: 7,
  dirty_seat: 8,
  bent_arbor: 9,
  wrong_cone: 10,
  pitted_races: 11,
  loose_nut: 12,
  worn_edge: 13,
  no_band: 14,
  coarse_feed: 15,
  warm_part: 16,
  micrometer_zero: 17,
  misread_turn: 18,
  speck: 19,
};

export const FAULTS = (Object.keys(ORDER) as Fault[]).sort((a, b) => ORDER[a] - ORDER[b]);

/** Whether any of these may call for a cut; the others only spoil one. */
const TO_BE_CUT: readonly Fault[] = ['thickness_waves', 'wobble', 'grooves', 'hard_spots'];
export const mayBeCut = (faults: readonly Fault[]) => faults.some((one) => TO_BE_CUT.includes(one));
