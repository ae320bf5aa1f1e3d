import type { Piece, PieceKind } from '../api/schema';

/** What is asked of a piece, in the order of a row. The four in the middle are the dimensions of its own kind. */
export const KINDS: readonly PieceKind[] = ['cone', 'clamp', 'spring', 'taper', 'spacer', 'nut'];

export type Dimension =
  | 'small'
  | 'large'
  | 'ring_inner'
  | 'ring_outer'
  | 'cup_bore'
  | 'cup_depth'
  | 'solid'
  | 'free'
  | 'outside';
export type Column = 'name' | 'kind' | 'hook' | 'unit' | 'bore' | 'length' | Dimension | 'is' | 'runout_um' | 'note';

const FIRST: readonly Column[] = ['name', 'kind', 'hook', 'unit', 'bore'];
const LAST: readonly Column[] = ['runout_um', 'note'];

/** What each kind is asked for beyond its bore; `is` says whether a spacer damps or is weighted. */
const OF_KIND: Record<PieceKind, readonly Column[]> = {
  cone: ['length', 'small', 'large'],
  clamp: ['length', 'ring_inner', 'ring_outer', 'cup_bore', 'cup_depth'],
  spring: ['solid', 'free'],
  taper: ['length', 'small', 'large', 'outside'],
  spacer: ['length', 'is'],
  nut: ['length'],
};
const MAY_BE_EMPTY: readonly Column[] = ['hook', 'cup_bore', 'cup_depth', 'outside', 'is', 'runout_um', 'note'];

export const LENGTHS: readonly Column[] = [
  'bore',
  'length',
  'small',
  'large',
  'ring_inner',
  'ring_outer',
  'cup_bore',
  'cup_depth',
  'solid',
  'free',
  'outside',
];

/** The columns that a piece of this kind has; of an unknown kind those that every piece has. */
export function columnsOf(kind: PieceKind | null): readonly Column[] {
  return kind ? [...FIRST, ...OF_KIND[kind], ...LAST] : [...FIRST, ...LAST];
}

export const mayBeEmpty = (column: Column) => MAY_BE_EMPTY.includes(column);
export const isLength = (column: Column) => LENGTHS.includes(column);

/** How many places a row has for the dimensions of its kind. */
export const OWN_PLACES = 4;

/** A row's places from left to right, the same number for each kind; null where this kind has nothing to say. */
export function placesOf(kind: PieceKind | null): readonly (Column | null)[] {
  const asked = kind ? OF_KIND[kind] : [];
  const own = asked.filter((column) => column !== 'length');
  const length = asked.includes('length') ? 'length' : null;
  const filled = Array.from({ length: OWN_PLACES }, (_, i) => own[i] ?? null);
  return [...FIRST, length, ...filled, ...LAST];
}

/** Which kind a word means: its own name, its beginning where no other begins so, or another word of the trade. */
export function kindOf(text: string): PieceKind | null {
  const word = text.trim().toLowerCase();
  if (word === '') return null;
  const other: Record<string, PieceKind> = { cup: 'clamp', bell: 'clamp', collar: 'spacer', ring: 'spacer' };
  const begins = KINDS.filter((kind) => kind.startsWith(word));
  if (begins.length === 1) return begins[0] ?? null;
  const named = KINDS.find((kind) => word === kind || word === `${kind}s` || word.endsWith(` ${kind}`));
  return named ?? other[word.split(' ').at(-1) ?? ''] ?? null;
}

/** The words of the `is` cell: "damping", "weighted", both, or their first letters. */
export function spacerIs(text: string): Pick<Piece, 'damping' | 'weighted'> | null {
  const known = ['', 'plain', 'no'];
  const words = text
    .toLowerCase()
    .split(/[\s,;/+]+|and/)
    .filter((word) => !known.includes(word));
  const damping = words.some((word) => 'damping'.startsWith(word));
  const weighted = words.some((word) => 'weighted'.startsWith(word));
  const all = words.every((word) => 'damping'.startsWith(word) || 'weighted'.startsWith(word));
  return all ? { damping, weighted } : null;
}
