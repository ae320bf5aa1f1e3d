/** Shapes by which people are told apart in pictures, without colour: ten outlines, filled, then hollow, then with a dot. */
export interface Mark {
  /** Path about the origin, for a mark of about `size` across. */
  d: string;
  look: 'filled' | 'hollow' | 'dotted';
}

type Point = readonly [number, number];

const regular = (corners: number, turned_deg: number, radius = 1): Point[] =>
  Array.from({ length: corners }, (_, k) => {
    const at = ((turned_deg + (360 * k) / corners) * Math.PI) / 180;
    return [radius * Math.sin(at), -radius * Math.cos(at)] as const;
  });

const ARM = 0.34;
const cross: readonly Point[] = [
  [-ARM, -1],
  [ARM, -1],
  [ARM, -ARM],
  [1, -ARM],
  [1, ARM],
  [ARM, ARM],
  [ARM, 1],
  [-ARM, 1],
  [-ARM, ARM],
  [-1, ARM],
  [-1, -ARM],
  [-ARM, -ARM],
];
const turned = (points: readonly Point[], deg: number): Point[] => {
  const at = (deg * Math.PI) / 180;
  return points.map(([x, y]) => [x * Math.cos(at) - y * Math.sin(at), x * Math.sin(at) + y * Math.cos(at)] as const);
};
const star = Array.from({ length: 10 }, (_, k) => regular(10, 0, k % 2 ? 0.45 : 1.1)[k] as Point);

const OUTLINES: readonly (readonly Point[])[] = [
  regular(24, 0, 0.95),
  regular(4, 45, 1.2),
  regular(3, 0, 1.2),
  regular(4, 0, 1.2),
  cross,
  regular(3, 180, 1.2),
  star,
  turned(cross, 45),
  regular(3, 90, 1.2),
  regular(3, 270, 1.2),
];
const LOOKS = ['filled', 'hollow', 'dotted'] as const;

/** Of the person at this place in the study, from 0. */
export function markOf(index: number, size = 10): Mark {
  const outline = OUTLINES[index % OUTLINES.length] as readonly Point[];
  const look = LOOKS[Math.floor(index / OUTLINES.length) % LOOKS.length] as Mark['look'];
  const half = size / 2;
  const d = `M${outline.map(([x, y]) => `${(x * half).toFixed(2)} ${(y * half).toFixed(2)}`).join('L')}Z`;
  return { d, look };
}
