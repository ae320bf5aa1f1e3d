import type { FacePicture } from './model';

/** Full colour at this height over or under the mean. */
export const FULL_UM = 60;

export const shareOf = (um: number): number => Math.max(-1, Math.min(1, um / FULL_UM));

export function meanHeight({ height_um }: Pick<FacePicture, 'height_um'>): number {
  return height_um.length > 0 ? height_um.reduce((sum, one) => sum + one, 0) / height_um.length : 0;
}

/** Highest less lowest of the whole face. */
export function heightSpan({ height_um }: Pick<FacePicture, 'height_um'>): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const one of height_um) {
    low = Math.min(low, one);
    high = Math.max(high, one);
  }
  return height_um.length > 0 ? high - low : 0;
}

/** How many times as high as they are heights may be drawn. */
export const TIMES = { least: 20, usual: 200, most: 1000 } as const;
/** A face still looks like a face when it is drawn this high, in outer radii. */
const LIKE_A_FACE = 0.35;

const outerRadius = ({ rings, inner_radius_mm, ring_step_mm }: FacePicture) =>
  inner_radius_mm + (rings - 1) * ring_step_mm;

/** As usual, or fewer where that would draw a bowl. */
export function timesFor(picture: FacePicture): number {
  const most = (LIKE_A_FACE * outerRadius(picture) * 1000) / Math.max(1, heightSpan(picture));
  const step = Math.floor(most / TIMES.least) * TIMES.least;
  return Math.min(TIMES.usual, Math.max(TIMES.least, step));
}

/** x, y, z of each place, in outer radii; heights are drawn so many times as high as they are. */
export function ringPlaces(picture: FacePicture, times: number): Float32Array {
  const { angles, rings, inner_radius_mm, ring_step_mm, height_um } = picture;
  const outer_mm = outerRadius(picture);
  const middle = meanHeight(picture);
  const places = new Float32Array(3 * angles * rings);
  for (let ring = 0; ring < rings; ring += 1) {
    const radius = (inner_radius_mm + ring * ring_step_mm) / outer_mm;
    for (let angle = 0; angle < angles; angle += 1) {
      const at = ring * angles + angle;
      const turn = (2 * Math.PI * angle) / angles;
      places[3 * at] = radius * Math.sin(turn);
      places[3 * at + 1] = radius * Math.cos(turn);
      places[3 * at + 2] = (((height_um[at] ?? middle) - middle) * times) / 1000 / outer_mm;
    }
  }
  return places;
}

/** Two triangles for each field between neighbours, closed round the circle. */
export function ringIndices({ angles, rings }: Pick<FacePicture, 'angles' | 'rings'>): number[] {
  const indices: number[] = [];
  for (let ring = 0; ring + 1 < rings; ring += 1) {
    for (let angle = 0; angle < angles; angle += 1) {
      const [a, b] = [ring * angles + angle, ring * angles + ((angle + 1) % angles)];
      indices.push(a, b, a + angles, b, b + angles, a + angles);
    }
  }
  return indices;
}
