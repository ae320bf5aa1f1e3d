import { render } from 'preact';
import { act } from 'preact/test-utils';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Change } from '../../web/src/api/schema';
import { type StandingAnswer, useStanding } from '../../web/src/state/answer';
import { heard, lastChange } from '../../web/src/state/connection';

const SETTLE_MS = 100;
let asked: { of: string; settle: (answer: string) => void; refuse: () => void }[] = [];
let page: HTMLElement;
let seq = 1000;
let standing: StandingAnswer<string>;

beforeEach(() => {
  vi.useFakeTimers();
  asked = [];
  page = document.createElement('div');
});
afterEach(() => {
  render(null, page);
  vi.useRealTimers();
});

function Standing({ of }: { of: string }) {
  standing = useStanding(
    () => new Promise<string>((settle, reject) => asked.push({ of, settle, refuse: () => reject(new Error('away')) })),
    /^permit\./,
    { of: [of], settle_ms: SETTLE_MS },
  );
  return <p>{`${standing.answer ?? 'nothing'}${standing.trouble ? ', trouble' : ''}`}</p>;
}

const show = (of: string) => act(() => render(<Standing of={of} />, page));
const wait = (ms: number) => act(async () => void (await vi.advanceTimersByTimeAsync(ms)));
const change = (kind: string) => {
  seq += 1;
  lastChange.value = { seq, kind } as Change;
};
const settle = (n: number, answer: string) => act(async () => asked[n]?.settle(answer));

it('is asked again for the kinds of change that it rests on, and for no other', async () => {
  await show('ada');
  await settle(0, 'first');
  change('reading.added');
  await wait(10 * SETTLE_MS);
  expect(asked).toHaveLength(1);
  change('permit.given');
  // The one that comes right after it is another matter, and hides it from nobody.
  change('reading.added');
  await wait(SETTLE_MS);
  expect(asked).toHaveLength(2);
  await settle(1, 'second');
  expect(page.textContent).toBe('second');
});

it('is asked once for changes in quick succession, and not put off by those that follow', async () => {
  await show('ada');
  await settle(0, 'first');
  for (let k = 0; k < 20; ++k) {
    change('permit.given');
    await wait(SETTLE_MS / 2);
  }
  expect(asked).toHaveLength(2);
  await settle(1, 'while they went on');
  expect(page.textContent).toBe('while they went on');
  await wait(SETTLE_MS);
  expect(asked).toHaveLength(3);
  await settle(2, 'after the last');
  await wait(10 * SETTLE_MS);
  expect(page.textContent).toBe('after the last');
  expect(asked).toHaveLength(3);
});

it('is asked at once after something was saved, and an older answer that comes later does not undo it', async () => {
  await show('ada');
  await settle(0, 'first');
  change('permit.given');
  await wait(SETTLE_MS);
  await act(() => standing.again());
  expect(asked).toHaveLength(3);
  await settle(2, 'saved');
  await settle(1, 'before it was saved');
  expect(page.textContent).toBe('saved');
});

it('tells whoever waits for it that there is no answer, and keeps the last one', async () => {
  await show('ada');
  await settle(0, 'first');
  const waiting = standing.reread();
  const failed = expect(waiting).rejects.toThrow('away');
  await act(async () => asked[1]?.refuse());
  await failed;
  expect(page.textContent).toBe('first, trouble');
});

it('leaves aside what is answered to the question before', async () => {
  await show('ada');
  await show('bo');
  await settle(1, 'of Bo');
  await settle(0, 'of Ada');
  expect(page.textContent).toBe('of Bo');
});

it('is asked again when the shop is heard again', async () => {
  await show('ada');
  await settle(0, 'first');
  heard.value = false;
  await wait(SETTLE_MS);
  expect(asked).toHaveLength(1);
  heard.value = true;
  await wait(SETTLE_MS);
  expect(asked).toHaveLength(2);
});
