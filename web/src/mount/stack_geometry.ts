import type { PieceKind } from '../api/schema';

/**
 * A stack on its arbor in half section: x from the shoulder towards the tip, r from the axis outward, millimetres. Where
 * a size is not on record a usual one stands in for the picture alone, and the shape says so.
 */
export type Point = readonly [x_mm: number, r_mm: number];

export interface DrawnPiece {
  id: string;
  kind: PieceKind;
  length_mm: number;
  bore_mm: number;
  small_mm: number | null;
  large_mm: number | null;
  ring_inner_mm: number | null;
  ring_outer_mm: number | null;
  cup_depth_mm: number | null;
  cup_bore_mm: number | null;
  outside_mm: number | null;
  damping: boolean;
  weighted: boolean;
}

export interface DrawnRotor {
  hubbed: boolean;
  bore_mm: number;
  flange_mm: number;
  flat_outer_mm: number;
  hub_length_mm: number;
  inner_race_mm: number;
  outer_race_mm: number;
  outer_diameter_mm: number | null;
  ring_inner_mm: number | null;
  thickness_mm: number | null;
  hat_height_mm: number | null;
  /** Of a drum: its bore and how deep it is; drawn in the place of hat and ring. */
  drum?: { diameter_mm: number | null; depth_mm: number | null } | undefined;
}

export interface Shape {
  /** The piece's id, or `rotor`. */
  key: string;
  look: PieceKind | 'rotor' | 'ring';
  /** Its place in the order of assembly, from 1. */
  number: number;
  points: readonly Point[];
  /** Where its number points to. */
  at: Point;
  damping?: boolean;
  weighted?: boolean;
  /** Some size of it is not on record. */
  guessed?: boolean;
}

export interface StackDrawing {
  shapes: readonly Shape[];
  /** Where the nut begins. */
  length_mm: number;
  from_mm: number;
  top_mm: number;
}

export const ROTOR = 'rotor';
const USUAL = { outer_mm: 280, ring_mm: 24, hat_mm: 46, wall_mm: 6, drum_mm: 240, depth_mm: 55, drum_wall_mm: 9 };

/** How far up the cone, or the taper, a diameter sits: 0 at its small end, 1 at its large one. */
export function seatOn(piece: Pick<DrawnPiece, 'small_mm' | 'large_mm'>, diameter_mm: number): number {
  const { small_mm, large_mm } = piece;
  if (small_mm === null || large_mm === null || large_mm <= small_mm) return 0.5;
  return Math.min(1, Math.max(0, (diameter_mm - small_mm) / (large_mm - small_mm)));
}

/** The order of assembly with the rotor in its place: behind the cone, or behind the first taper. */
export function assemblyOrder(pieces: readonly Pick<DrawnPiece, 'id' | 'kind'>[], hubbed: boolean): string[] {
  const holds = pieces.findIndex((piece) => piece.kind === (hubbed ? 'taper' : 'cone'));
  const first = Math.max(
    0,
    pieces.findIndex((piece) => piece.kind === 'clamp'),
  );
  const at = holds >= 0 ? holds : first;
  const ids = pieces.map((piece) => piece.id);
  return [...ids.slice(0, at + 1), ROTOR, ...ids.slice(at + 1)];
}

export function drawStack(pieces: readonly DrawnPiece[], rotor: DrawnRotor): StackDrawing {
  const order = assemblyOrder(pieces, rotor.hubbed);
  const number = (key: string) => order.indexOf(key) + 1;
  const inner = rotor.hubbed ? hubbed(pieces, rotor, number) : hubless(pieces, rotor, number);
  let x = inner.length_mm;
  const shapes = [...inner.shapes];
  for (const piece of pieces.filter((one) => one.kind === 'spacer')) {
    shapes.push(spacer(piece, x, number(piece.id)));
    x += piece.length_mm;
  }
  const nut = pieces.find((piece) => piece.kind === 'nut');
  if (nut) shapes.push(nutShape(nut, x, number(nut.id)));
  const all = shapes.flatMap((shape) => shape.points);
  return {
    shapes,
    length_mm: x,
    from_mm: Math.min(0, ...all.map(([at]) => at)),
    top_mm: Math.max(...all.map(([, r]) => r), 20),
  };
}

type Numbered = (key: string) => number;
interface Carried {
  shapes: Shape[];
  length_mm: number;
}

function hubless(pieces: readonly DrawnPiece[], rotor: DrawnRotor, number: Numbered): Carried {
  const [first, second] = pieces.filter((piece) => piece.kind === 'clamp');
  const cone = pieces.find((piece) => piece.kind === 'cone');
  const spring = pieces.find((piece) => piece.kind === 'spring');
  const face = first?.length_mm ?? 0;
  const shapes: Shape[] = [];
  if (first) shapes.push(clamp(first, 0, 1, number(first.id)));
  if (cone) {
    const q = seatOn(cone, rotor.bore_mm);
    const large = face - (1 - q) * cone.length_mm;
    if (spring) {
      const floor = Math.max(0, face - cupDepth(first));
      shapes.push(springShape(spring, floor, Math.max(floor, large), number(spring.id)));
    }
    shapes.push(slope(cone, 'cone', large, 1, number(cone.id)));
  }
  shapes.push(
    ...(rotor.drum
      ? [drumShape(rotor.drum, face, rotor.flange_mm, rotor.bore_mm / 2, number(ROTOR))]
      : hat(rotor, face, number(ROTOR))),
  );
  const outer = face + rotor.flange_mm;
  if (second) shapes.push(clamp(second, outer, -1, number(second.id)));
  return { shapes, length_mm: outer + (second?.length_mm ?? 0) };
}

function hubbed(pieces: readonly DrawnPiece[], rotor: DrawnRotor, number: Numbered): Carried {
  const [first, second] = pieces.filter((piece) => piece.kind === 'taper');
  const hub = first ? outsideOf(first, rotor.inner_race_mm) : 0;
  const end = hub + rotor.hub_length_mm;
  const shapes: Shape[] = hubShapes(rotor, hub, number(ROTOR));
  if (first) shapes.push(slope(first, 'taper', 0, 1, number(first.id)));
  const out = second ? outsideOf(second, rotor.outer_race_mm) : 0;
  if (second) shapes.push(slope(second, 'taper', end + out, -1, number(second.id)));
  return { shapes, length_mm: end + out };
}

/** A piece alone, as it hangs on the pegboard: from 0 towards the tip. */
export function pieceShape(piece: DrawnPiece): Shape {
  if (piece.kind === 'clamp') return clamp(piece, 0, 1, 1);
  if (piece.kind === 'cone' || piece.kind === 'taper') return slope(piece, piece.kind, 0, 1, 1);
  if (piece.kind === 'spring') return springShape(piece, 0, piece.length_mm, 1);
  return piece.kind === 'nut' ? nutShape(piece, 0, 1) : spacer(piece, 0, 1);
}

export const outsideOf = (taper: DrawnPiece, race_mm: number): number =>
  taper.outside_mm ?? (1 - seatOn(taper, race_mm)) * taper.length_mm;

/** A cup is never deeper than the clamp is long, whatever was typed. */
const cupDepth = (piece: DrawnPiece | undefined): number =>
  piece ? Math.min(piece.cup_depth_mm ?? 0, 0.85 * piece.length_mm) : 0;

const middle = (points: readonly Point[]): Point => [
  points.reduce((sum, [x]) => sum + x, 0) / points.length,
  points.reduce((sum, [, r]) => sum + r, 0) / points.length,
];

const block = (from: number, to: number, low: number, high: number): Point[] => [
  [from, low],
  [from, high],
  [to, high],
  [to, low],
];

/** A bell: its ring bears on the part; `way` 1 looks towards the tip, -1 towards the shoulder. */
function clamp(piece: DrawnPiece, at: number, way: 1 | -1, number: number): Shape {
  const back = way === 1 ? at : at + piece.length_mm;
  const x = (from_back: number) => back + way * from_back;
  const arbor = piece.bore_mm / 2;
  const outer = (piece.ring_outer_mm ?? 4 * arbor) / 2;
  const inner = (piece.ring_inner_mm ?? 3 * arbor) / 2;
  const cup = Math.min((piece.cup_bore_mm ?? 2 * inner) / 2, outer - 1);
  const depth = cupDepth(piece);
  const floor = piece.length_mm - depth;
  const lip = piece.length_mm - Math.min(4, piece.length_mm / 8);
  const bell: Point[] = [
    [x(0), arbor],
    [x(0), Math.max(arbor + 8, 0.6 * outer)],
    [x(Math.max(floor - 6, 2)), outer],
    [x(piece.length_mm), outer],
    [x(piece.length_mm), inner],
  ];
  const inside: Point[] =
    depth > 0
      ? [
          [x(lip), Math.min(cup, inner)],
          [x(floor), cup],
          [x(floor), arbor],
        ]
      : [
          [x(lip), inner],
          [x(lip), arbor],
        ];
  return { key: piece.id, look: 'clamp', number, points: [...bell, ...inside], at: [x(floor / 2), arbor + 4] };
}

/** A cone or a taper: its large end first, `way` the direction in which it gets smaller. */
function slope(piece: DrawnPiece, look: 'cone' | 'taper', large_at: number, way: 1 | -1, number: number): Shape {
  const arbor = piece.bore_mm / 2;
  const small = Math.max((piece.small_mm ?? 0) / 2, arbor + 1);
  const large = Math.max((piece.large_mm ?? 0) / 2, small);
  const end = large_at + way * piece.length_mm;
  const points: Point[] = [
    [large_at, arbor],
    [large_at, large],
    [end, small],
    [end, arbor],
  ];
  const at: Point = [large_at + way * (look === 'cone' ? 8 : 4), arbor + 4];
  return { key: piece.id, look, number, points, at };
}

function springShape(piece: DrawnPiece, from: number, to: number, number: number): Shape {
  const low = piece.bore_mm / 2 + 2;
  const high = low + 9;
  const turns = 4;
  const step = (to - from) / (2 * turns);
  const points: Point[] = Array.from({ length: 2 * turns + 1 }, (_, i) => [from + i * step, i % 2 ? high : low]);
  return { key: piece.id, look: 'spring', number, points, at: [(from + to) / 2, low] };
}

function spacer(piece: DrawnPiece, from: number, number: number): Shape {
  const arbor = piece.bore_mm / 2;
  const { damping, weighted } = piece;
  const outer = arbor + (weighted ? 26 : damping ? 20 : 14);
  const points = block(from, from + piece.length_mm, arbor, outer);
  return { key: piece.id, look: 'spacer', number, points, at: middle(points), damping, weighted };
}

function nutShape(piece: DrawnPiece, from: number, number: number): Shape {
  const arbor = piece.bore_mm / 2;
  const outer = 1.75 * arbor;
  const end = from + piece.length_mm;
  const points: Point[] = [
    [from, arbor],
    [from, outer + 5],
    [from + 4, outer + 5],
    [from + 4, outer],
    [end - 2, outer],
    [end, outer - 2],
    [end, arbor],
  ];
  return { key: piece.id, look: 'nut', number, points, at: middle(points) };
}

/** A drum: its closed end from `inner` outward, the wall round the bore towards the shoulder. */
function drumShape(
  drum: NonNullable<DrawnRotor['drum']>,
  face: number,
  closed_mm: number,
  inner: number,
  number: number,
): Shape {
  const bore = (drum.diameter_mm ?? USUAL.drum_mm) / 2;
  const outer = face + closed_mm;
  const open = face - (drum.depth_mm ?? USUAL.depth_mm);
  const points: Point[] = [
    [face, inner],
    [face, bore],
    [open, bore],
    [open, bore + USUAL.drum_wall_mm],
    [outer, bore + USUAL.drum_wall_mm],
    [outer, inner],
  ];
  const guessed = drum.diameter_mm === null || drum.depth_mm === null;
  return { key: ROTOR, look: 'rotor', number, points, at: [face + closed_mm / 2, bore], guessed };
}

/** The rotor with a hat: the flange between the clamps, the wall and the ring towards the shoulder. */
function hat(rotor: DrawnRotor, face: number, number: number): Shape[] {
  const outer = face + rotor.flange_mm;
  const wall = rotor.flat_outer_mm / 2 + 3 + USUAL.wall_mm;
  const braking = outer - (rotor.hat_height_mm ?? USUAL.hat_mm);
  const points: Point[] = [
    [face, rotor.bore_mm / 2],
    [face, wall - USUAL.wall_mm],
    [braking, wall - USUAL.wall_mm],
    [braking, wall],
    [outer, wall],
    [outer, rotor.bore_mm / 2],
  ];
  const guessed = rotor.hat_height_mm === null;
  const at: Point = [face + rotor.flange_mm / 2, wall];
  return [{ key: ROTOR, look: 'rotor', number, points, at, guessed }, ring(rotor, braking, wall, number)];
}

/** The braking ring, its outboard face at `braking`. */
function ring(rotor: DrawnRotor, braking: number, wall: number, number: number): Shape {
  const thickness = rotor.thickness_mm ?? USUAL.ring_mm;
  const top = Math.max((rotor.outer_diameter_mm ?? USUAL.outer_mm) / 2, wall + 20);
  const low = Math.min(Math.max((rotor.ring_inner_mm ?? 0) / 2, wall - USUAL.wall_mm), top - 5);
  const points: Point[] = [
    [braking - thickness, low],
    [braking - thickness, top],
    [braking, top],
    [braking, Math.min(low, wall)],
  ];
  const guessed = rotor.outer_diameter_mm === null || rotor.ring_inner_mm === null || rotor.thickness_mm === null;
  return { key: `${ROTOR}_ring`, look: 'ring', number, points, at: [braking - thickness / 2, top], guessed };
}

const HUB_WALL_MM = 9;
const RACE_MM = 16;

/** The rotor that carries its hub: races at both ends, the flange at its middle, the ring towards the shoulder. */
function hubShapes(rotor: DrawnRotor, from: number, number: number): Shape[] {
  const to = from + rotor.hub_length_mm;
  const [first, second] = [rotor.inner_race_mm / 2, rotor.outer_race_mm / 2];
  const neck = Math.min(first, second) - 4;
  const race = Math.min(RACE_MM, rotor.hub_length_mm / 3);
  const outer = Math.max(first, second) + HUB_WALL_MM;
  const hub: Point[] = [
    [from, first],
    [from, first + HUB_WALL_MM],
    [to, second + HUB_WALL_MM],
    [to, second],
    [to - race, second],
    [to - race, neck],
    [from + race, neck],
    [from + race, first],
  ];
  const flange = from + 0.55 * rotor.hub_length_mm;
  const whole: Shape = { key: ROTOR, look: 'rotor', number, points: hub, at: [(from + to) / 2, neck + 6] };
  if (rotor.drum) {
    const closed = drumShape(rotor.drum, flange, USUAL.wall_mm, outer - HUB_WALL_MM / 2, number);
    return [{ ...closed, key: `${ROTOR}_drum` }, whole];
  }
  const back = flange + USUAL.wall_mm;
  const wall = outer + 26;
  const braking = back - (rotor.hat_height_mm ?? USUAL.hat_mm);
  const hatPoints: Point[] = [
    [flange, outer - HUB_WALL_MM / 2],
    [flange, wall - USUAL.wall_mm],
    [braking, wall - USUAL.wall_mm],
    [braking, wall],
    [back, wall],
    [back, outer - HUB_WALL_MM / 2],
  ];
  return [
    { key: `${ROTOR}_hat`, look: 'rotor', number, points: hatPoints, at: [flange, wall], guessed: true },
    whole,
    ring(rotor, braking, wall, number),
  ];
}

/** Labels side by side that stay `gap` apart and as near as can be to where they point. */
export function spread(wanted: readonly number[], gap: number, low: number, high: number): number[] {
  const order = wanted.map((at, i) => ({ at, i })).sort((a, b) => a.at - b.at || a.i - b.i);
  let least = Number.NEGATIVE_INFINITY;
  const pushed = order.map(({ at }) => {
    const placed = Math.max(Math.min(Math.max(at, low), high), least);
    least = placed + gap;
    return placed;
  });
  let most = high;
  for (let i = pushed.length - 1; i >= 0; i -= 1) {
    const placed = Math.min(pushed[i] ?? high, most);
    pushed[i] = placed;
    most = placed - gap;
  }
  const out: number[] = wanted.map(() => 0);
  for (const [at, { i }] of order.entries()) out[i] = pushed[at] ?? 0;
  return out;
}
