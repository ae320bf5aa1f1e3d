/** One field that two people changed, from the same start, to different values. */
export interface FieldConflict {
  /** Path of the field, such as `limits.discard`. */
  path: string;
  base: unknown;
  theirs: unknown;
  mine: unknown;
}

export interface Merge<T> {
  /** Theirs, with my changes where they left the field alone; conflicting fields hold theirs. */
  merged: T;
  conflicts: FieldConflict[];
  /** Fields that only they changed, and so changed under my hand. */
  taken: string[];
}

type Tree = Record<string, unknown>;

const isTree = (value: unknown): value is Tree => typeof value === 'object' && value !== null && !Array.isArray(value);

/** Deep equality of JSON values; null and an absent field are the same. */
export function sameJson(a: unknown, b: unknown): boolean {
  const left = a ?? null;
  const right = b ?? null;
  if (left === right) return true;
  if (Array.isArray(left) && Array.isArray(right)) {
    return left.length === right.length && left.every((item, i) => sameJson(item, right[i]));
  }
  if (!isTree(left) || !isTree(right)) return false;
  const keys = new Set([...Object.keys(left), ...Object.keys(right)]);
  return [...keys].every((key) => sameJson(left[key], right[key]));
}

/**
 * Lays my changes over theirs, field by field.
 * @param whole paths below which a value is one thing (a limit with its unit and source is not mixed from two hands)
 * @param ignored fields that count changes and are not themselves one, such as `version`
 */
export function mergeFields<T extends object>(
  base: T,
  theirs: T,
  mine: T,
  whole: (path: string) => boolean,
  ignored: readonly string[] = ['version', 'changed_at'],
): Merge<T> {
  const conflicts: FieldConflict[] = [];
  const taken: string[] = [];
  const walk = (b: Tree, t: Tree, m: Tree, prefix: string): Tree => {
    const merged: Tree = { ...t };
    for (const key of new Set([...Object.keys(b), ...Object.keys(t), ...Object.keys(m)])) {
      if (ignored.includes(key)) continue;
      const path = prefix === '' ? key : `${prefix}.${key}`;
      const [was, its, my] = [b[key], t[key], m[key]];
      if (sameJson(my, was)) {
        if (!sameJson(its, was)) taken.push(path);
      } else if (sameJson(its, was) || sameJson(its, my)) {
        merged[key] = my;
      } else if (!whole(path) && isTree(was) && isTree(its) && isTree(my)) {
        merged[key] = walk(was, its, my, path);
      } else {
        conflicts.push({ path, base: was ?? null, theirs: its ?? null, mine: my ?? null });
      }
    }
    return merged;
  };
  return { merged: walk(base as Tree, theirs as Tree, mine as Tree, '') as T, conflicts, taken };
}

/** `merged` with my value at `path` in place of theirs. */
export function takeMine<T extends object>(merged: T, conflict: FieldConflict): T {
  const keys = conflict.path.split('.');
  const set = (tree: Tree, [key, ...rest]: string[]): Tree =>
    key === undefined
      ? tree
      : { ...tree, [key]: rest.length === 0 ? conflict.mine : set((tree[key] ?? {}) as Tree, rest) };
  return set(merged as Tree, keys) as T;
}
