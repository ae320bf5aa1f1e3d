import { signal } from '@preact/signals';

/** Where the page is: the path in its pieces, and what stands behind the question mark. */
export interface Place {
  path: string;
  query: Record<string, string>;
}

export interface Match<T> {
  screen: T;
  parameters: Record<string, string>;
}

/** The first pattern that fits a path, such as `/jobs/:number/:step`; null when none does. */
export function match<T>(table: readonly (readonly [pattern: string, screen: T])[], path: string): Match<T> | null {
  const pieces = split(path);
  for (const [pattern, screen] of table) {
    const parameters = fitted(split(pattern), pieces);
    if (parameters) return { screen, parameters };
  }
  return null;
}

const split = (path: string) => path.split('/').filter((piece) => piece !== '');

function fitted(pattern: string[], pieces: string[]): Record<string, string> | null {
  if (pattern.length !== pieces.length) return null;
  const parameters: Record<string, string> = {};
  for (const [i, wanted] of pattern.entries()) {
    const piece = decoded(pieces[i] ?? '');
    if (piece === null) return null;
    if (wanted.startsWith(':')) parameters[wanted.slice(1)] = piece;
    else if (wanted !== piece) return null;
  }
  return parameters;
}

function decoded(piece: string): string | null {
  try {
    return decodeURIComponent(piece);
  } catch {
    return null;
  }
}

export function placeOf(url: URL): Place {
  return { path: url.pathname, query: Object.fromEntries(url.searchParams) };
}

export const place = signal<Place>(placeOf(new URL(window.location.href)));

/** Goes to an address of this page. `replace` leaves no step in the history, as for a tab within a screen. */
export function go(to: string, { replace = false } = {}): void {
  const url = new URL(to, window.location.href);
  if (url.href === window.location.href) return;
  if (replace) window.history.replaceState(null, '', url);
  else window.history.pushState(null, '', url);
  const moved = url.pathname !== place.value.path;
  place.value = placeOf(url);
  if (moved) window.scrollTo(0, 0);
}

/** Changes single words behind the question mark; an empty one goes. */
export function ask(words: Record<string, string>): void {
  const url = new URL(window.location.href);
  for (const [name, value] of Object.entries(words)) {
    if (value) url.searchParams.set(name, value);
    else url.searchParams.delete(name);
  }
  go(url.pathname + url.search, { replace: true });
}

/** Follows the links of the page without loading it again. */
export function followLinks(page: Window): void {
  page.addEventListener('popstate', () => {
    place.value = placeOf(new URL(page.location.href));
  });
  page.document.addEventListener('click', (event) => {
    if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey) return;
    const link = event.target instanceof Element ? event.target.closest('a') : null;
    if (!link?.href || link.target || link.hasAttribute('download')) return;
    const url = new URL(link.href);
    if (url.origin !== page.location.origin || url.pathname.startsWith('/api/')) return;
    event.preventDefault();
    go(url.pathname + url.search);
  });
}
