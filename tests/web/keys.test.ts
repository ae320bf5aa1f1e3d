import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { JobFile, NewReading, ShopView } from '../../web/src/api/schema';
import { beginAfresh, moveBy, typed } from '../../web/src/measure/at_bench';
import { listenForReadings } from '../../web/src/measure/keys';
import { go } from '../../web/src/route/router';
import { outbox } from '../../web/src/state/connection';
import { jobFile } from '../../web/src/state/job';
import { shop, workAs } from '../../web/src/state/shop';

const person = { id: 'p', name: 'Ada', role: 'student', active: true } as const;
const part = { id: 'part', side: 'left', construction: 'hubless', vented: true, limits: {} } as const;
const plan = {
  part_id: 'part',
  stage: 'before',
  points: 4,
  turning: 'clockwise',
  circles_from_edge_nm: [10_000_000],
  runout_place: 'on_car',
} as const;

let field: HTMLInputElement;
let other: HTMLInputElement;
let own: HTMLInputElement;
let button: HTMLButtonElement;
let closed: number;
let now_ms = 0;
let stop: () => void;

beforeEach(() => {
  vi.spyOn(window, 'scrollTo').mockImplementation(() => undefined);
  vi.stubGlobal('fetch', () => new Promise(() => undefined));
  localStorage.clear();
  outbox.reload();
  document.body.innerHTML = '<input id="reading"><input id="other"><input id="own" data-gauge="own"><button>b</button>';
  const find = <E extends HTMLElement>(selector: string) => document.querySelector<E>(selector) as E;
  field = find('#reading');
  other = find('#other');
  own = find('#own');
  button = find('button');
  shop.value = { people: [person], instruments: [], settings: { default_unit: 'mm' } } as unknown as ShopView;
  workAs('p');
  go('/jobs/1/before');
  jobFile.value = {
    job: { id: 'job', number: 1, state: 'open' },
    parts: [part],
    plans: [plan],
    readings: [],
  } as unknown as JobFile;
  beginAfresh();
  closed = 0;
  stop = listenForReadings({ page: document, field: () => field, closeDrawer: () => (closed += 1) });
});
afterEach(() => stop());

/** Strikes keys where the focus is; what the page does not keep for itself goes into the field, as in a browser. */
function strike(keys: readonly string[], gap_ms: number) {
  for (const key of keys) {
    now_ms += gap_ms;
    const target = document.activeElement ?? document.body;
    const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
    Object.defineProperty(event, 'timeStamp', { value: now_ms });
    const goesOn = target.dispatchEvent(event);
    if (goesOn && key.length === 1 && target instanceof HTMLInputElement && target !== field) {
      target.value += key;
      target.dispatchEvent(new Event('input', { bubbles: true }));
    }
  }
}
const pause = (ms: number) => {
  now_ms += ms;
};
const readings = () => outbox.entries.value.map((entry) => entry.sent.body as NewReading);
const taken = () => readings().map((one) => `${one.point} ${one.text}`);

describe('keys on the measuring screen', () => {
  it('from a hand make a reading at Enter, and the next point follows', () => {
    field.focus();
    strike([...'23.41', 'Backspace', '2', 'Enter'], 120);
    strike([...'23,4', 'Enter'], 120);
    expect(taken()).toEqual(['0 23.42', '1 23,4']);
  });

  it('from a gauge are taken when a button has the focus, which is not pressed', () => {
    const pressed = vi.fn();
    button.addEventListener('click', pressed);
    button.focus();
    strike([...'23.409', 'Enter'], 8);
    expect(taken()).toEqual(['0 23.409']);
    expect(pressed).not.toHaveBeenCalled();
    expect(document.activeElement).toBe(field);
  });

  it('keep the first digit when a busy tablet delivers the next one late', () => {
    field.focus();
    strike(['2'], 8);
    pause(300);
    strike([...'3.409', 'Enter'], 8);
    expect(taken()).toEqual(['0 23.409']);
  });

  it('leave out a stray digit that lay there long before the gauge sent its reading', () => {
    field.focus();
    strike(['7'], 8);
    pause(4000);
    strike([...'23.409', 'Enter'], 8);
    expect(taken()).toEqual(['0 23.409']);
  });

  it('from a gauge inside another field are taken all the same, and the field gets its text back', () => {
    other.value = 'rust';
    other.focus();
    strike([...'23.409', 'Enter'], 8);
    expect(taken()).toEqual(['0 23.409']);
    expect(other.value).toBe('rust');
    expect(closed).toBe(1);
  });

  it('stay in a field that wants the gauge for itself, and with a hand that types in another one', () => {
    own.focus();
    strike([...'0.002', 'Enter'], 8);
    other.focus();
    strike([...'12.5', 'Enter'], 90);
    expect(taken()).toEqual([]);
    expect([own.value, other.value]).toEqual(['0.002', '12.5']);
  });

  it('that mean nothing here change nothing', () => {
    field.focus();
    strike(['x', '#', ' ', 'F5', 'Home', 'Enter', 'Tab'], 120);
    expect(typed.value).toBe('');
    expect(taken()).toEqual([]);
  });

  it('let the arrows light other points, and Escape clear what was typed', () => {
    field.focus();
    strike(['ArrowRight', 'ArrowRight', ...'23.4', 'Escape', ...'23.5', 'Enter'], 120);
    expect(taken()).toEqual(['2 23.5']);
  });

  it('let a reading replace the one that waits at its point', () => {
    field.focus();
    strike([...'23.4', 'Enter'], 120);
    moveBy(-1);
    strike([...'23.5', 'Enter'], 120);
    const [first, second] = readings();
    expect(second).toMatchObject({ point: 0, text: '23.5', supersedes_id: first?.id });
  });

  it('take the last reading back with Backspace once nothing is typed, but not while it is held down', () => {
    field.focus();
    strike([...'23.4', 'Enter'], 120);
    const held = new KeyboardEvent('keydown', { key: 'Backspace', bubbles: true, cancelable: true, repeat: true });
    field.dispatchEvent(held);
    expect(outbox.entries.value).toHaveLength(1);
    strike(['Backspace'], 120);
    expect(outbox.entries.value.map((entry) => entry.about)).toEqual(['reading', 'withdrawal']);
  });
});
