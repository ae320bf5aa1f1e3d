import { Refused } from '../api/client';
import { type Merge, mergeFields } from './merge';

export type Outcome<T> = { saved: T } | { merge: Merge<T> };

const ATTEMPTS = 4;

/**
 * Saves my changes of a thing that others may have changed meanwhile. Changes to different fields are laid together and
 * saved; where both changed one field, nothing is saved and the merge is handed back for a person to settle.
 */
export async function saveMerging<T extends { version?: number }>(
  base: T,
  mine: T,
  save: (wanted: T) => Promise<T>,
  whole: (path: string) => boolean,
): Promise<Outcome<T>> {
  let start = base;
  let wanted = mine;
  for (let attempt = 1; ; attempt += 1) {
    try {
      return { saved: await save(wanted) };
    } catch (cause) {
      const changed = cause instanceof Refused && cause.body.code === 'changed_meanwhile' && cause.body.current;
      if (!changed || attempt === ATTEMPTS) throw cause;
      const theirs = changed as unknown as T;
      const merge = mergeFields<T>(start, theirs, wanted, whole);
      if (merge.conflicts.length > 0) return { merge };
      start = theirs;
      wanted = merge.merged;
    }
  }
}
