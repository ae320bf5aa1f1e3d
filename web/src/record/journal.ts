import type { components } from '../api/types';
import { sameJson } from '../conflict/merge';

type Change = components['schemas']['Change'];

/** One field of a journal entry: what it was and what it became. */
export interface FieldChange {
  path: string;
  old: unknown;
  new: unknown;
}

export interface JournalEntry {
  change: Change;
  /** Empty for a thing that is new: all of it is. */
  fields: FieldChange[];
  first: boolean;
}

const SILENT = new Set(['version', 'changed_at', 'id', 'job_id']);

type Tree = Record<string, unknown>;
const isTree = (value: unknown): value is Tree => typeof value === 'object' && value !== null && !Array.isArray(value);

/** A typed length or a limit is shown as one value. */
const isOneValue = (value: Tree): boolean => 'text' in value || 'value' in value;

function differences(before: Tree, after: Tree, prefix: string): FieldChange[] {
  const changes: FieldChange[] = [];
  for (const key of new Set([...Object.keys(before), ...Object.keys(after)])) {
    if (SILENT.has(key)) continue;
    const [was, is] = [before[key] ?? null, after[key] ?? null];
    if (sameJson(was, is)) continue;
    const path = prefix === '' ? key : `${prefix}.${key}`;
    if (isTree(was) && isTree(is) && !isOneValue(was) && !isOneValue(is)) {
      changes.push(...differences(was, is, path));
    } else {
      changes.push({ path, old: was, new: is });
    }
  }
  return changes;
}

/** Journal entries, oldest first as given, each with what it changed in the thing it speaks of. */
export function journalEntries(changes: readonly Change[]): JournalEntry[] {
  const last = new Map<string, Tree>();
  return changes.map((change) => {
    const before = last.get(change.subject_id);
    const after = change.detail as Tree;
    last.set(change.subject_id, { ...before, ...after });
    // A part comes with its job, and so is first spoken of when it is changed: all that it then has is shown.
    const changed = before !== undefined || change.kind.endsWith('.changed');
    return { change, first: !changed, fields: changed ? differences(before ?? {}, after, '') : [] };
  });
}
