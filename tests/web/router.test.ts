import { beforeEach, describe, expect, it, vi } from 'vitest';
import { ask, followLinks, go, match, place } from '../../web/src/route/router';

const table = [
  ['/', 'board'],
  ['/jobs/new', 'new'],
  ['/jobs/:number/before', 'before'],
  ['/shop', 'shop'],
] as const;

describe('addresses', () => {
  it.each([
    ['/', 'board', {}],
    ['/jobs/new', 'new', {}],
    ['/jobs/12/before', 'before', { number: '12' }],
    ['/jobs/12/before/', 'before', { number: '12' }],
    ['/jobs/a%20b/before', 'before', { number: 'a b' }],
  ])('%s is the screen %s', (path, screen, parameters) => {
    expect(match(table, path)).toEqual({ screen, parameters });
  });

  it.each(['/jobs', '/jobs/12', '/jobs/12/before/x', '/jobs/%E0%A4%A/before', '/Shop'])('%s is none', (path) => {
    expect(match(table, path)).toBeNull();
  });
});

describe('the way through the page', () => {
  beforeEach(() => {
    vi.spyOn(window, 'scrollTo').mockImplementation(() => undefined);
    go('/');
  });

  it('follows its own links without loading, and leaves others to the browser', () => {
    followLinks(window);
    document.body.innerHTML =
      '<a id="own" href="/shop?x=1">a</a><a id="file" href="/api/v1/export.json">b</a><a id="out" href="https://elsewhere.invalid/">c</a>';
    const click = (id: string) => {
      const event = new MouseEvent('click', { bubbles: true, cancelable: true, button: 0 });
      document.addEventListener('click', (one) => one.preventDefault(), { once: true });
      document.getElementById(id)?.dispatchEvent(event);
    };
    click('file');
    click('out');
    expect(place.value.path).toBe('/');
    click('own');
    expect(place.value).toEqual({ path: '/shop', query: { x: '1' } });
  });

  it('changes words behind the question mark without a step in the history', () => {
    go('/jobs/12/before?part=left');
    const steps = window.history.length;
    ask({ part: 'right', of: 'bore' });
    expect(place.value.query).toEqual({ part: 'right', of: 'bore' });
    ask({ of: '' });
    expect(place.value.query).toEqual({ part: 'right' });
    expect(window.history.length).toBe(steps);
  });
});
