import { render } from 'preact';
import { act } from 'preact/test-utils';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { Choice } from '../../web/src/shell/choice';

let page: HTMLElement;
let chosen: string[];

beforeEach(() => {
  page = document.createElement('div');
  document.body.append(page);
  chosen = [];
});
afterEach(() => {
  render(null, page);
  page.remove();
});

const SPEEDS = ['60', '100', '150', '200'].map((value) => ({ value, label: value, disabled: value === '150' }));

const show = (value: string, pressed: boolean) =>
  act(() =>
    render(
      <Choice label="Speed" pressed={pressed} value={value} options={SPEEDS} onChange={(one) => chosen.push(one)} />,
      page,
    ),
  );
const radio = (name: string) =>
  [...page.querySelectorAll<HTMLElement>('[role="radio"]')].find((one) => one.textContent === name);
const key = (name: string) =>
  act(() => {
    document.activeElement?.dispatchEvent(new KeyboardEvent('keydown', { key: name, bubbles: true }));
  });

it('chooses by the arrows on the way past', async () => {
  await show('60', false);
  radio('60')?.focus();
  await key('ArrowRight');
  expect(chosen).toEqual(['100']);
  expect(document.activeElement?.textContent).toBe('100');
});

it('only moves by the arrows where what is chosen acts at once, and leaves out what cannot be chosen', async () => {
  await show('60', true);
  radio('60')?.focus();
  await key('ArrowRight');
  await key('ArrowRight');
  expect(chosen).toEqual([]);
  expect(document.activeElement?.textContent).toBe('200');
  await key('ArrowDown');
  expect(document.activeElement?.textContent).toBe('60');
  await key('ArrowLeft');
  await act(() => (document.activeElement as HTMLElement).click());
  expect(chosen).toEqual(['200']);
});

it('is reached by the keyboard where none of its options is the present one', async () => {
  await show('75', true);
  expect(radio('60')?.tabIndex).toBe(0);
  expect(page.querySelectorAll('[tabindex="0"]')).toHaveLength(1);
});
