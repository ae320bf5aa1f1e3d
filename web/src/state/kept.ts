import { useRef, useState } from 'preact/hooks';
import { dropDraft, keepDraft, readDraft } from './drafts';

/**
 * What is half typed on a form, which a reload leaves as it was. `drop` begins anew, after saving. Where the form changes
 * something that stands already, `base` is that: a draft that began from another state of it begins anew.
 */
export function useKept<T extends object>(name: string, start: () => T, base: unknown = null) {
  const began_from = useRef(JSON.stringify(base));
  const [draft, setDraft] = useState<T>(() => readDraft(localStorage, name, start(), began_from.current));
  const change = (part: Partial<T>) =>
    setDraft((now) => {
      const next = { ...now, ...part };
      keepDraft(localStorage, name, next, began_from.current);
      return next;
    });
  const drop = () => {
    dropDraft(localStorage, name);
    began_from.current = JSON.stringify(base);
    setDraft(start());
  };
  return { draft, change, drop };
}

/** For whoever leaves a form by its way out: nothing of it is kept. */
export const forgetKept = (name: string) => dropDraft(localStorage, name);
