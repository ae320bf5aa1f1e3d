import { render } from 'preact';
import { act } from 'preact/test-utils';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { AfterCut } from '../../web/src/practice/after_cut';
import { type InHand, Measuring, measureAct } from '../../web/src/practice/measuring';
import type { Act, ActDone } from '../../web/src/practice/model';
import type { AtBench } from '../../web/src/practice/use_run';
import { words } from '../../web/src/words';

const said = words.practice_bench;
let page: HTMLElement;
let acts: Act[] = [];

beforeEach(() => {
  page = document.createElement('div');
  acts = [];
  localStorage.clear();
});

afterEach(() => render(null, page));

const make = {
  outer_radius_mm: 140,
  inner_radius_mm: 88,
  band_inner_radius_mm: 92,
  band_outer_radius_mm: 138,
  hat_radius_mm: 80,
  new_thickness_mm: 24,
  machine_to_mm: 22.5,
  discard_mm: 22,
  variation_um: 15,
  runout_um: 50,
  seat: { kind: 'hubless', bore_mm: 64 },
};
const instruments = [
  { id: 'micrometer_fine', kind: 'micrometer', resolution_mm: 0.001, u_mm: 0.0015 },
  { id: 'caliper_coarse', kind: 'caliper', resolution_mm: 0.01, u_mm: 0.02 },
];
const view = { mounted: [], refitted: false, part_temperature_c: 20, decided: 'cut', rpm: 0 };

const bench = (done: ActDone[] = [], now: object = {}): AtBench =>
  ({
    run: {
      id: 'run-1',
      bench: { make, instruments, stud_positions_deg: [0, 72, 144, 216, 288], hub_runout_um: 12, hub_high_deg: 40 },
      view: { ...view, ...now },
      acts: done,
    },
    act: (one: Act) => acts.push(one),
    refusal: null,
    pending: [],
  }) as unknown as AtBench;

const hand: InHand = { instrument_id: 'micrometer_fine', spot: { angle_deg: 30, radius_mm: 115 } };

const buttonOf = (name: string): HTMLButtonElement => {
  const found = [...page.querySelectorAll('button')].find((one) => one.textContent?.trim() === name);
  if (!found) throw new Error(`no button ${name}`);
  return found;
};
const tap = (name: string) => act(() => buttonOf(name).click());

describe('a micrometer', () => {
  it('is closed by the ratchet until the hand takes the thimble, and the act says which', () => {
    expect(measureAct(hand)).toMatchObject({ do: 'measure', angle_deg: 30, ratchet: true });
    const changes: Partial<InHand>[] = [];
    const shown = (now: InHand) =>
      act(() => render(<Measuring at={bench()} hand={now} onHand={(part) => changes.push(part)} />, page));
    shown(hand);
    expect(buttonOf(said.measure.turned.ratchet).getAttribute('aria-checked')).toBe('true');
    tap(said.measure.turned.thimble);
    expect(changes).toEqual([{ turned_by: 'thimble' }]);
    shown({ ...hand, turned_by: 'thimble' });
    expect(buttonOf(said.measure.turned.thimble).getAttribute('aria-checked')).toBe('true');
    expect(measureAct({ ...hand, turned_by: 'thimble' })).toMatchObject({ ratchet: false });
  });

  it('has the choice, and a caliper has none', () => {
    act(() =>
      render(<Measuring at={bench()} hand={{ ...hand, instrument_id: 'caliper_coarse' }} onHand={() => 0} />, page),
    );
    expect(page.textContent).not.toContain(said.measure.turned.thimble);
  });
});

describe('after the cut', () => {
  const shown = (done: ActDone[] = [], now: object = {}) =>
    act(() => render(<AfterCut at={bench(done, now)} hand={hand} onHand={() => 0} />, page));

  it('the part is washed by a button, which says so once it is', () => {
    shown();
    expect(page.textContent).not.toContain(said.after.washed);
    tap(said.after.wash);
    expect(acts).toEqual([{ do: 'wash' }]);
    shown([{ number: 1, act: { do: 'wash' }, outcome: {} } as unknown as ActDone]);
    expect([...page.querySelectorAll('[role="status"]')].map((one) => one.textContent)).toContain(said.after.washed);
  });

  const told = () => page.querySelector('[role="alert"]')?.textContent;

  it('nothing goes on before it is chosen how, and a line says what to choose', () => {
    shown();
    expect(page.querySelectorAll('.bench-refit [aria-checked="true"]')).toHaveLength(1);
    expect(told()).toBeUndefined();
    tap(said.after.put);
    expect(told()).toBe('Choose first: hub’s face, wheel nuts.');
    tap(said.after.clean.yes);
    expect(told()).toBe('Choose first: wheel nuts.');
    tap(said.after.put);
    expect(acts).toEqual([]);
    tap(said.after.nuts_drawn.round);
    expect(told()).toBeUndefined();
    tap(said.after.put);
    tap(said.after.nuts_drawn.star);
    tap(said.after.put);
    expect(acts).toEqual([
      { do: 'refit', position: 0, hub_cleaned: true, nuts_in_star: false },
      { do: 'refit', position: 0, hub_cleaned: true, nuts_in_star: true },
    ]);
    expect(page.textContent).toContain(said.after.nuts_caution);
  });

  it('what is chosen stands after a reload', () => {
    shown();
    tap(said.after.stud_name(2, '144'));
    tap(said.after.clean.no);
    tap(said.after.nuts_drawn.star);
    act(() => render(null, page));
    shown();
    tap(said.after.put);
    expect(acts).toEqual([{ do: 'refit', position: 2, hub_cleaned: false, nuts_in_star: true }]);
  });

  it('the runout on the car is shown as long as the part is on it', () => {
    const refit = { number: 1, act: { do: 'refit' }, outcome: { hub_runout_um: 21 } } as unknown as ActDone;
    shown([refit], { refitted: true });
    expect(page.querySelector('.bench-runout')?.textContent).toContain(said.after.on_car);
    shown([refit, { number: 2, act: { do: 'wash' }, outcome: {} } as unknown as ActDone]);
    expect(page.textContent).not.toContain(said.after.on_car);
    expect(page.textContent).toContain(said.after.off_car);
    shown();
    expect(page.textContent).not.toContain(said.after.off_car);
  });
});

describe('what an eye sees', () => {
  it('names the face that did not clean up', () => {
    expect(said.look.seen('old_face_inboard')).toBe('The old face still shows in places, inboard');
  });
});
