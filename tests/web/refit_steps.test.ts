import { describe, expect, it } from 'vitest';
import type { BenchEvent } from '../../web/src/guide/events';
import { CAR, type RefitWord, refitState, WHEEL } from '../../web/src/refit/refit_steps';

let at_ms = 0;
const event = (step: string, what: BenchEvent['event'] = 'done', detail = ''): BenchEvent => {
  at_ms += 1;
  return { id: String(at_ms), step, pass: 0, event: what, detail, at_ms, waiting: false };
};
const doneAll = (words: readonly RefitWord[]) => words.map((word) => event(word));

describe('the steps back onto the car', () => {
  it('begin at the flange and go wheel first, then car', () => {
    const order: RefitWord[] = [];
    const events: BenchEvent[] = [];
    for (let at = refitState(events, []).at; at; at = refitState(events, []).at) {
      order.push(at);
      events.push(event(at));
    }
    expect(order).toEqual([...WHEEL, ...CAR]);
  });

  it('wait with the pedal until every wheel is on', () => {
    const here = doneAll(WHEEL);
    expect(refitState(here, [[]])).toMatchObject({ at: null, wheel_done: true });
    expect(refitState(here, [doneAll(WHEEL)]).at).toBe('pedal_pumped');
  });

  it('do not ask for the car’s own steps at each wheel', () => {
    const other = [...doneAll(WHEEL), event('pedal_pumped')];
    expect(refitState(doneAll(WHEEL), [other]).at).toBe('bedding_told');
  });

  it('leave out the runout of a drum, which no indicator reaches', () => {
    const on = doneAll(WHEEL.filter((word) => word !== 'runout_checked'));
    expect(refitState(on, [], true).at).toBe('pedal_pumped');
    expect(refitState(on, []).at).toBe('runout_checked');
  });

  it('take back the last one', () => {
    const events = [event('flange_clean'), event('hat_clean'), event('hat_clean', 'undone')];
    expect(refitState(events, [])).toMatchObject({ at: 'hat_clean', undo: 'flange_clean' });
  });

  it('come round again for a rotor that was taken off: on, nuts and runout, with its faces still clean', () => {
    const events = [...doneAll(WHEEL.slice(0, -1)), event('part_on', 'undone', 'taken off again')];
    const state = refitState(events, []);
    expect(state.at).toBe('part_on');
    expect([...state.done]).toEqual(['flange_clean', 'hat_clean']);
  });

  it('keep what was said with a step, the last time it was ticked', () => {
    const events = [event('part_on', 'done', 'turned by 1 stud'), event('part_on', 'done', 'turned by 2 studs')];
    expect(refitState(events, []).details.get('part_on')).toBe('turned by 2 studs');
  });

  it('pass over words of other phases', () => {
    expect(refitState([event('washed')], []).done.size).toBe(0);
  });
});
