import type { JobFile, Part, Piece, Quantity, TypedLength } from '../api/schema';
import { kindOf } from '../show/part_kind';
import type { DrawnPiece, DrawnRotor } from './stack_geometry';

const mm = (nm: number | null | undefined): number | null => (nm === null || nm === undefined ? null : nm / 1e6);
const mmOf = (length: TypedLength | null | undefined): number | null => mm(length?.nm);

export function drawnPiece(piece: Piece): DrawnPiece {
  return {
    id: piece.id,
    kind: piece.kind,
    length_mm: piece.length_nm / 1e6,
    bore_mm: piece.bore_nm / 1e6,
    small_mm: mm(piece.small_nm),
    large_mm: mm(piece.large_nm),
    ring_inner_mm: mm(piece.ring_inner_nm),
    ring_outer_mm: mm(piece.ring_outer_nm),
    cup_depth_mm: mm(piece.cup_depth_nm),
    cup_bore_mm: mm(piece.cup_bore_nm),
    outside_mm: mm(piece.outside_nm),
    damping: piece.damping ?? false,
    weighted: piece.weighted ?? false,
  };
}

/** The last reading of a quantity before the cut that counts. */
function lastReading(file: JobFile, part: Part, quantity: Quantity): number | null {
  const read = file.readings.filter(
    (one) => one.part_id === part.id && one.stage === 'before' && one.quantity === quantity && one.state === 'current',
  );
  return mmOf(read.at(-1)?.value);
}

const drumOf = (file: JobFile, part: Part) => ({
  diameter_mm: lastReading(file, part, 'diameter') ?? mmOf(part.limits.nominal?.value),
  depth_mm: mmOf(part.band_width),
});

/** What of a rotor is drawn; a bore that was read goes before one that was typed. */
export function drawnRotor(file: JobFile, part: Part): DrawnRotor {
  const seat = part.seat ?? {};
  return {
    hubbed: part.construction === 'integral_hub',
    bore_mm: lastReading(file, part, 'bore') ?? mmOf(seat.bore) ?? 60,
    flange_mm: mmOf(seat.flange) ?? 7,
    flat_outer_mm: mmOf(seat.flat_outer) ?? 140,
    hub_length_mm: mmOf(seat.hub_length) ?? 80,
    inner_race_mm: mmOf(seat.inner_race) ?? 60,
    outer_race_mm: mmOf(seat.outer_race) ?? 50,
    outer_diameter_mm: mmOf(part.outer_diameter),
    ring_inner_mm: mmOf(seat.ring_inner),
    thickness_mm: lastReading(file, part, 'thickness') ?? mmOf(part.limits.nominal?.value),
    hat_height_mm: lastReading(file, part, 'hat_height'),
    ...(kindOf(part) === 'drum' ? { drum: drumOf(file, part) } : {}),
  };
}
