import { render } from 'preact';
import { afterEach, beforeEach } from 'vitest';

/** A place in the document for the tests of a file, empty at the beginning of each. */
export function ownPage(): HTMLElement {
  const page = document.createElement('div');
  beforeEach(() => document.body.append(page));
  afterEach(() => {
    render(null, page);
    page.replaceChildren();
    page.remove();
  });
  return page;
}
