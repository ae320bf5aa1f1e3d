import { useRef, useState } from 'preact/hooks';
import { dropDraft, keepDraft, readDraft } from './drafts';

/**
 * What is half typed on a form, which a reload leaves as it was. `drop` begins anew, after saving. Where the form changes
 * something that stands already, `base` is that: a draft that began from another state of it begins anew. Without a name
 * nothing is kept beyond the page.
 */
export function useKept<T extends object>(name: string | null, start: () => T, base: unknown = null) {
  const began_from = useRef(JSON.stringify(base));
  const [draft, setDraft] = useState<T>(() =>
    name === null ? start() : readDraft(localStorage, name, start(), began_from.current),
  );
  const change = (part: Partial<T>) =>
    setDraft((now) => {
      const next = { ...now, ...part };
      if (name !== null) keepDraft(localStorage, name, next, began_from.current);
      return next;
    });
  const drop = () => {
    if (name !== null) dropDraft(localStorage, name);
    began_from.current = JSON.stringify(base);
    setDraft(start());
  };
  return { draft, change, drop };
}

/** For whoever leaves a form by its way out: nothing of it is kept. */
export const forgetKept = (name: string) => dropDraft(localStorage, name);
