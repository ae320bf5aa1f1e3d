/** How wide the eye looks, from top to bottom, in degrees. */
export const FIELD_DEG = 42;

export interface EyeDistance {
  /** Height of what it looks at, in the middle of the relief. */
  middle: number;
  /** How far off it is. */
  away: number;
  /** Nearest and farthest place that is drawn. */
  near: number;
  far: number;
}

/**
 * From where the whole of a relief is seen, from whichever side it is looked at; all in outer radii.
 *
 * @param low, high  its lowest and highest place
 * @param aspect  width of its frame over its height
 */
export function eyeDistance(low: number, high: number, aspect: number): EyeDistance {
  const reach = Math.hypot(1, (high - low) / 2);
  const half_field = Math.atan(Math.tan((FIELD_DEG * Math.PI) / 360) * Math.min(1, aspect));
  const away = reach / Math.sin(half_field);
  return { middle: (low + high) / 2, away, near: (away - reach) / 2, far: away + 2 * reach };
}
