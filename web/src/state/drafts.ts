/** What is half typed, kept in the page's own storage until it is saved: it survives a reload and a lost network. */
export interface DraftStore {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

const PREFIX = 'brakewright.draft.';

let whose: () => string = () => '';

/** Says whose drafts are read and kept from here on: nobody sees those of somebody else. */
export function draftsOf(person: () => string): void {
  whose = person;
}

const keyOf = (name: string) => PREFIX + (whose() ? `${whose()}.` : '') + name;

/** Under this name a draft says what it began from. */
const BEGAN_FROM = 'began_from';
const NOTHING = 'null';

/**
 * The draft under this name, laid over `start` so that a field added since is not missing. One that began from something
 * else than what stands now is none any more.
 */
export function readDraft<T extends object>(store: DraftStore, name: string, start: T, began_from = NOTHING): T {
  const text = store.getItem(keyOf(name));
  if (text === null) return start;
  try {
    const kept: unknown = JSON.parse(text);
    if (typeof kept !== 'object' || kept === null || Array.isArray(kept)) return start;
    const { [BEGAN_FROM]: from = NOTHING, ...draft } = kept as Record<string, unknown>;
    return from === began_from ? { ...start, ...draft } : start;
  } catch {
    return start;
  }
}

export function keepDraft(store: DraftStore, name: string, value: object, began_from = NOTHING): void {
  const draft = began_from === NOTHING ? value : { ...value, [BEGAN_FROM]: began_from };
  try {
    store.setItem(keyOf(name), JSON.stringify(draft));
  } catch {
    // The page's storage is full or closed to us: the draft then lives only as long as the page.
  }
}

export function dropDraft(store: DraftStore, name: string): void {
  store.removeItem(keyOf(name));
}
