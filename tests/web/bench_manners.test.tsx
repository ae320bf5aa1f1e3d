import { render } from 'preact';
import { act } from 'preact/test-utils';
import { describe, expect, it, vi } from 'vitest';
import { CutSaid } from '../../web/src/practice/cut_said';
import type { BenchView, ToolView } from '../../web/src/practice/model';
import { oncePerPress } from '../../web/src/practice/presses';
import { APART_MS, Teller } from '../../web/src/practice/teller';
import { ownPage } from './own_page';

const page = ownPage();

describe('a key that is held down', () => {
  const press = (selector: string, key: string, repeat: boolean) => {
    const event = new KeyboardEvent('keydown', { key, repeat, bubbles: true, cancelable: true });
    page.querySelector(selector)?.dispatchEvent(event);
    return event.defaultPrevented ? 'nothing' : 'pressed';
  };

  it('presses a button once, turns a dial on, and types on', () => {
    page.innerHTML =
      '<button id="start"><span>Start</span></button><p class="dial-steps"><button id="dial"></button></p><input>';
    const end = oncePerPress(window);
    expect(press('#start', 'Enter', false)).toBe('pressed');
    expect(press('#start', 'Enter', true)).toBe('nothing');
    expect(press('#start span', 'Enter', true)).toBe('nothing');
    expect(press('#start', 'Tab', true)).toBe('pressed');
    expect(press('#dial', 'Enter', true)).toBe('pressed');
    expect(press('input', 'Enter', true)).toBe('pressed');
    end();
    expect(press('#start', 'Enter', true)).toBe('pressed');
  });
});

describe('what a screen reader is told of the tools', () => {
  it('is the most important thing first, one at a time, and nothing that no longer stands', () => {
    const teller = new Teller({ outboard: 'air', inboard: 'air' });
    expect(teller.next({ outboard: 'air', inboard: 'air' }, 0)).toBeNull();
    expect(teller.next({ outboard: 'part', inboard: 'sings' }, 10)).toEqual({ side: 'inboard', touch: 'sings' });
    expect(teller.next({ outboard: 'part', inboard: 'sings' }, 1010)).toEqual({ in_ms: APART_MS - 1000 });
    expect(teller.next({ outboard: 'air', inboard: 'sings' }, 1020)).toBeNull();
    expect(teller.next({ outboard: 'rubs', inboard: 'air' }, 10 + APART_MS)).toEqual({
      side: 'outboard',
      touch: 'rubs',
    });
  });

  it('stands in one place, and comes by itself once it may', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
    const air: ToolView = {
      dial_marks: 0,
      locked: false,
      thrust_n: 0,
      contact_share: 0,
      swing_um: 0,
      sings: false,
      rubs: false,
    };
    const show = (outboard: ToolView, inboard: ToolView) =>
      act(() => render(<CutSaid view={{ outboard, inboard } as BenchView} />, page));
    const wait = (ms: number) => act(async () => void (await vi.advanceTimersByTimeAsync(ms)));
    const told = () => page.querySelector('[role="status"]')?.textContent;
    await show(air, air);
    await wait(1);
    expect(told()).toBe('');
    await show({ ...air, rubs: true, contact_share: 1 }, { ...air, sings: true, contact_share: 1 });
    await wait(1);
    expect(told()).toBe('Inboard: Sings.');
    await wait(APART_MS - 100);
    expect(told()).toBe('Inboard: Sings.');
    await wait(200);
    expect(told()).toBe('Outboard: Rubs and does not cut.');
    expect(page.querySelectorAll('[aria-live], [role="status"]')).toHaveLength(1);
    vi.useRealTimers();
  });
});
