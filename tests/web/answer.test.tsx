import { render } from 'preact';
import { act } from 'preact/test-utils';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Refused } from '../../web/src/api/client';
import { useAnswer, useAnswerTo } from '../../web/src/state/answer';

const WAIT_MS = 200;
let asked: { question: string; settle: (answer: string) => void; refuse: () => void }[] = [];
let page: HTMLElement;

beforeEach(() => {
  vi.useFakeTimers();
  asked = [];
  page = document.createElement('div');
});

afterEach(() => {
  render(null, page);
  vi.useRealTimers();
});

const ask = (question: string) =>
  new Promise<string>((settle, reject) => {
    const refuse = () => reject(new Refused(400, { code: 'not_a_tyre', field: 'tyre', message: 'no tyre' }));
    asked.push({ question, settle, refuse });
  });

function Typed({ question }: { question: string | null }) {
  const { answer, trouble } = useAnswerTo(question, () => ask(question ?? ''), WAIT_MS);
  return <p>{answer ?? trouble?.message ?? 'nothing'}</p>;
}

function Standing({ question }: { question: string }) {
  const { answer, trouble } = useAnswer(() => ask(question), [question]);
  return <p>{`${answer ?? 'nothing'}, ${trouble?.message ?? 'no trouble'}`}</p>;
}

const show = (what: preact.ComponentChild) => act(() => render(what, page));
const wait = (ms: number) => act(async () => void (await vi.advanceTimersByTimeAsync(ms)));

it('a question that is typed is asked once it stands, and only its own answer is shown', async () => {
  await show(<Typed question="195" />);
  await wait(WAIT_MS / 2);
  await show(<Typed question="195/65 R15" />);
  await wait(WAIT_MS);
  expect(asked.map((one) => one.question)).toEqual(['195/65 R15']);
  await act(async () => asked[0]?.settle('1.99 m'));
  expect(page.textContent).toBe('1.99 m');
  await show(<Typed question="205/55 R16" />);
  expect(page.textContent).toBe('nothing');
  await wait(WAIT_MS);
  await show(<Typed question="195/65 R16" />);
  await act(async () => asked[1]?.settle('late'));
  expect(page.textContent).toBe('nothing');
  await wait(WAIT_MS);
  await act(async () => asked[2]?.refuse());
  expect(page.textContent).toBe('no tyre');
  await show(<Typed question={null} />);
  expect(page.textContent).toBe('nothing');
});

it('an answer stands until the next one, and a late one to an earlier question is left aside', async () => {
  await show(<Standing question="a" />);
  await wait(0);
  await act(async () => asked[0]?.settle('of a'));
  expect(page.textContent).toBe('of a, no trouble');
  await show(<Standing question="b" />);
  await wait(0);
  await show(<Standing question="c" />);
  await wait(0);
  await act(async () => asked[2]?.settle('of c'));
  await act(async () => asked[1]?.settle('of b'));
  expect(page.textContent).toBe('of c, no trouble');
  await show(<Standing question="d" />);
  await wait(0);
  await act(async () => asked[3]?.refuse());
  expect(page.textContent).toBe('of c, no tyre');
});
