/**
 * Where things lie on the face, seen from outside, in a drawing whose middle is (0, 0) and whose y points down. The
 * index mark is at the top; angles are degrees from it in the direction in which the points count.
 */
export type Turning = 'clockwise' | 'anticlockwise';

export interface Spot {
  x: number;
  y: number;
}

const RADIANS = Math.PI / 180;

export function spotAt(angle_deg: number, radius: number, turning: Turning): Spot {
  const turn = turning === 'clockwise' ? angle_deg : -angle_deg;
  return { x: radius * Math.sin(turn * RADIANS), y: -radius * Math.cos(turn * RADIANS) };
}

/** The angle of a spot of the drawing, in [0, 360). */
export function angleOf({ x, y }: Spot, turning: Turning): number {
  const clockwise = Math.atan2(x, -y) / RADIANS;
  return (((turning === 'clockwise' ? clockwise : -clockwise) % 360) + 360) % 360;
}

/** Inner and outer radius of the band that each circle has of a ring; the first circle is the outermost. */
export function bands(
  circles: number,
  inner: number,
  outer: number,
): { inner: number; outer: number; middle: number }[] {
  const width = (outer - inner) / Math.max(circles, 1);
  return Array.from({ length: circles }, (_, i) => ({
    inner: outer - (i + 1) * width,
    outer: outer - i * width,
    middle: outer - (i + 0.5) * width,
  }));
}

const n = (value: number) => Number(value.toFixed(3));

/** Outline of a piece of a ring from one angle to another, as the d of an SVG path. */
export function wedge(from_deg: number, to_deg: number, inner: number, outer: number, turning: Turning): string {
  const a = spotAt(from_deg, outer, turning);
  const b = spotAt(to_deg, outer, turning);
  const c = spotAt(to_deg, inner, turning);
  const d = spotAt(from_deg, inner, turning);
  const large = to_deg - from_deg > 180 ? 1 : 0;
  const sweep = turning === 'clockwise' ? 1 : 0;
  return (
    `M${n(a.x)} ${n(a.y)}A${n(outer)} ${n(outer)} 0 ${large} ${sweep} ${n(b.x)} ${n(b.y)}` +
    `L${n(c.x)} ${n(c.y)}A${n(inner)} ${n(inner)} 0 ${large} ${1 - sweep} ${n(d.x)} ${n(d.y)}Z`
  );
}

/**
 * Where the piece of each of these angles begins and ends: half way to its neighbours round the circle. One angle alone
 * has the whole circle. In the order given.
 */
export function sectors(angles_deg: readonly number[]): { from_deg: number; to_deg: number }[] {
  const order = angles_deg.map((_, i) => i).sort((a, b) => (angles_deg[a] ?? 0) - (angles_deg[b] ?? 0));
  const result = angles_deg.map(() => ({ from_deg: 0, to_deg: 360 }));
  if (order.length < 2) return result;
  for (const [place, i] of order.entries()) {
    const here = angles_deg[i] ?? 0;
    const before = angles_deg[order.at(place - 1) ?? i] ?? 0;
    const after = angles_deg[order[(place + 1) % order.length] ?? i] ?? 0;
    const back = (((here - before) % 360) + 360) % 360 || 360;
    const ahead = (((after - here) % 360) + 360) % 360 || 360;
    result[i] = { from_deg: here - back / 2, to_deg: here + ahead / 2 };
  }
  return result;
}

export interface OnRing {
  circle: number;
  point: number;
  angle_deg: number;
}

/** The point whose piece of the ring holds this spot; null off the ring. */
export function pointAt<P extends OnRing>(
  spot: Spot,
  points: readonly P[],
  circles: number,
  ring: { inner: number; outer: number; turning: Turning },
): P | null {
  const radius = Math.hypot(spot.x, spot.y);
  const reach = 1.3;
  if (radius > ring.outer * reach || radius < ring.inner * 0.8 || points.length === 0) return null;
  const width = (ring.outer - ring.inner) / Math.max(circles, 1);
  const circle = Math.min(Math.max(Math.floor((ring.outer - radius) / width), 0), circles - 1);
  const angle = angleOf(spot, ring.turning);
  const apart = (one: P) => Math.abs(((one.angle_deg - angle + 540) % 360) - 180);
  const here = points.filter((one) => one.circle === circle);
  return (here.length ? here : [...points]).sort((a, b) => apart(a) - apart(b))[0] ?? null;
}

/** From -1 (lowest colour) over 0 to 1; null where there is nothing to colour. */
export function shade(value: number | null, middle: number, span: number): number | null {
  if (value === null || !Number.isFinite(value)) return null;
  if (span <= 0) return 0;
  return Math.min(Math.max((value - middle) / span, -1), 1);
}

/** A colour of the diverging map; the theme's own ends. */
export function shadeColour(share: number): string {
  const end = share < 0 ? 'var(--deviation-low)' : 'var(--deviation-high)';
  return `color-mix(in oklab, ${end} ${Math.round(100 * Math.abs(share))}%, var(--deviation-mid))`;
}
