import { render } from 'preact';
import { afterEach, expect, it, vi } from 'vitest';
import { useNow } from '../../web/src/guide/awake';
import { useBenchKeys } from '../../web/src/guide/keys';
import { openStudy } from '../../web/src/studies/at_study';
import { MeasureInStudy } from '../../web/src/studies/measure';
import { ownPage } from './own_page';

/** What is drawn answers from its first moment: a busy tablet may draw long before it does what comes after drawing. */
const page = ownPage();

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const strike = (key: string) =>
  document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));

it('the first key at a study’s place is the first digit of its reading', async () => {
  const place = { reference_part_id: 'block', part_name: 'Block A', place_words: 'on the dot', instrument_id: 'mic' };
  const next = { study_id: 's', person_id: '', done: 0, of: 1, ahead: [{ ...place, repeat: 0 }], newest: null };
  const file = { study: { id: 's', name: 'First week', closed: false }, parts: [], progress: [] };
  vi.stubGlobal('matchMedia', () => ({ matches: false, addEventListener: () => undefined }));
  vi.stubGlobal('fetch', async (url: string) => Response.json(url.includes('/next') ? next : file));
  await openStudy('s', '');
  render(<MeasureInStudy id="s" />, page);
  strike('2');
  expect(page.querySelector('.blind-count')?.textContent).toBe('Reading 1 of 1');
  await vi.waitFor(() => expect(page.querySelector<HTMLInputElement>('.reading-digits')?.value).toBe('2'));
});

it('the first key at a step of the guided cut is heard', () => {
  const done = vi.fn();
  const Step = () => {
    useBenchKeys({ done });
    return <h1>Machine on</h1>;
  };
  render(<Step />, page);
  strike('Enter');
  expect(done).toHaveBeenCalledOnce();
});

it('a clock that goes on after a pause shows the time that it is, not that of the pause', () => {
  vi.useFakeTimers({ now: 60_000 });
  const Clock = ({ running }: { running: boolean }) => <p>{useNow(running)}</p>;
  render(<Clock running />, page);
  render(<Clock running={false} />, page);
  vi.setSystemTime(360_000);
  render(<Clock running />, page);
  expect(page.textContent).toBe('360000');
});
