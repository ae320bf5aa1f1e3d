import { useState } from 'preact/hooks';
import { Refused } from '../api/client';
import { words } from '../words';

/** Why the last attempt to save came to nothing: beside the field it names, or for the whole. */
export interface Trouble {
  code: string;
  field: string;
  message: string;
}

/** The code of a trouble where the shop did not answer. */
export const UNREACHABLE = 'unreachable';

export function troubleOf(cause: unknown): Trouble {
  if (cause instanceof Refused) return { code: cause.body.code, field: cause.body.field, message: cause.body.message };
  return { code: UNREACHABLE, field: '', message: words.saving.unreachable };
}

/** The trouble with a field, whether the shop names it alone (`vehicle`) or as a path that ends so (`job.vehicle`). */
export function wrongWith(trouble: Trouble | null, field: string): string | undefined {
  if (!trouble) return undefined;
  const path = trouble.field;
  const about = path === field || path.endsWith(`.${field}`) || path.includes(`${field}.`);
  return about ? trouble.message : undefined;
}

/** The trouble that no field of the screen shows. */
export function wrongElsewhere(trouble: Trouble | null, fields: readonly string[]): string | undefined {
  if (!trouble || fields.some((field) => wrongWith(trouble, field))) return undefined;
  return trouble.message;
}

export interface Saving {
  busy: boolean;
  trouble: Trouble | null;
  setTrouble: (trouble: Trouble | null) => void;
  /** Does the work; answers whether it went through. */
  run: (work: () => Promise<unknown>) => Promise<boolean>;
}

export function useSaving(): Saving {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const run = async (work: () => Promise<unknown>) => {
    setBusy(true);
    setTrouble(null);
    try {
      await work();
      return true;
    } catch (cause) {
      setTrouble(troubleOf(cause));
      return false;
    } finally {
      setBusy(false);
    }
  };
  return { busy, trouble, setTrouble, run };
}
