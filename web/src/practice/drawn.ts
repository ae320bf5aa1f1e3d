import type { DrawnPiece, DrawnRotor } from '../mount/stack_geometry';
import type { StackLathe } from '../mount/stack_picture';
import type { BenchLathe, BenchMake, BenchPiece } from './model';

/** Sizes of the bench for the house's drawing of a stack; nought there is none here. */
const sizeOf = (mm: number): number | null => (mm > 0 ? mm : null);

export const drawnBenchPiece = (piece: BenchPiece): DrawnPiece => ({
  id: piece.id,
  kind: piece.kind,
  length_mm: piece.length_mm > 0 ? piece.length_mm : piece.free_mm,
  bore_mm: piece.bore_mm,
  small_mm: sizeOf(piece.small_mm),
  large_mm: sizeOf(piece.large_mm),
  ring_inner_mm: sizeOf(piece.ring_inner_mm),
  ring_outer_mm: sizeOf(piece.ring_outer_mm),
  cup_depth_mm: sizeOf(piece.cup_depth_mm),
  cup_bore_mm: sizeOf(piece.cup_bore_mm),
  outside_mm: piece.outside_mm ?? null,
  damping: piece.damping,
  weighted: piece.weighted,
});

export const drawnPart = (make: BenchMake): DrawnRotor => ({
  hubbed: make.seat.kind === 'hubbed',
  bore_mm: make.seat.bore_mm,
  flange_mm: make.seat.flange_mm,
  flat_outer_mm: make.seat.flat_outer_mm,
  hub_length_mm: make.seat.hub_length_mm,
  inner_race_mm: make.seat.inner_race_mm,
  outer_race_mm: make.seat.outer_race_mm,
  outer_diameter_mm: 2 * make.outer_radius_mm,
  ring_inner_mm: 2 * make.inner_radius_mm,
  thickness_mm: make.new_thickness_mm,
  hat_height_mm: make.hat_height_mm,
});

const NM_PER_MM = 1e6;

export const latheDrawn = ({ arbor }: BenchLathe): StackLathe => ({
  thread_start_nm: arbor.thread_start_mm * NM_PER_MM,
  tip_nm: arbor.tip_mm * NM_PER_MM,
  arbor_diameter_nm: arbor.diameter_mm * NM_PER_MM,
  nut_thread: 'left',
});
