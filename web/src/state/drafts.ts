/** What is half typed, kept in the page's own storage until it is saved: it survives a reload and a lost network. */
export interface DraftStore {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

const PREFIX = 'brakewright.draft.';

/** The draft under this name, laid over `start` so that a field added since is not missing. */
export function readDraft<T extends object>(store: DraftStore, name: string, start: T): T {
  const text = store.getItem(PREFIX + name);
  if (text === null) return start;
  try {
    const kept: unknown = JSON.parse(text);
    return typeof kept === 'object' && kept !== null && !Array.isArray(kept) ? { ...start, ...kept } : start;
  } catch {
    return start;
  }
}

export function keepDraft(store: DraftStore, name: string, value: object): void {
  try {
    store.setItem(PREFIX + name, JSON.stringify(value));
  } catch {
    // The page's storage is full or closed to us: the draft then lives only as long as the page.
  }
}

export function dropDraft(store: DraftStore, name: string): void {
  store.removeItem(PREFIX + name);
}
