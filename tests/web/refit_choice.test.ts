import { describe, expect, it } from 'vitest';
import type { TaperPlate } from '../../web/src/api/schema';
import type { BenchEvent } from '../../web/src/guide/events';
import { type Choice, chosenOf, placeOn } from '../../web/src/refit/choice';
import { isOfFitting, tickedOn } from '../../web/src/refit/fitted';
import { placeInWords } from '../../web/src/refit/place';
import { refitState } from '../../web/src/refit/refit_steps';

const at = (second: number) => `2026-01-05T08:00:${String(second).padStart(2, '0')}Z`;
const event = (event: BenchEvent['event'], second: number, detail = '', received = true): BenchEvent => ({
  id: String(second),
  step: 'part_on',
  pass: 0,
  event,
  detail,
  at_ms: Date.parse(at(second)),
  waiting: !received,
  ...(received ? { received_at: at(second) } : {}),
});

const plate = { id: 'plate-1', name: 'Plate, 50' } as TaperPlate;
const own = (position: number, reason = ''): Choice => ({ position, plate_id: null, plate_position: null, reason });
const advised = (position: number) => ({ refit: { best: { position }, all: [] } }) as never;

describe('where a part goes on', () => {
  it('is not known before the shop has said it, and is its own mark only where none can be worked out', () => {
    expect(chosenOf(null, null, null, [])).toBeNull();
    expect(chosenOf(null, null, { refit: null } as never, [])?.position).toBe(0);
    expect(chosenOf(null, null, advised(2), [])?.position).toBe(2);
  });

  it('is what was ticked on any tablet, over what was chosen on this one', () => {
    const on = { turned: 1, plate: { name: 'Plate, 50', position: 2 }, reason: 'no other' };
    expect(chosenOf(own(3), on, advised(2), [plate])).toEqual({
      position: 1,
      plate_id: 'plate-1',
      plate_position: 2,
      reason: 'no other',
    });
    expect(chosenOf(own(3), null, advised(2), [plate])?.position).toBe(3);
  });

  it('takes a reason that was typed later for the place that was ticked, and for no other', () => {
    const on = { turned: 1, plate: null, reason: '' };
    expect(chosenOf(own(1, 'rust'), on, null, [])?.reason).toBe('rust');
    expect(chosenOf(own(3, 'rust'), on, null, [])?.reason).toBe('');
  });

  it('is open again once the part was taken off', () => {
    const on = event('done', 1, placeInWords({ turned: 1, plate: null, reason: '' }));
    expect(placeOn(refitState([on], []))?.turned).toBe(1);
    expect(placeOn(refitState([on, event('undone', 2)], []))).toBeNull();
  });
});

describe('what was read of a part back on its hub', () => {
  const read = (second: number, received = true) => ({
    taken_at: at(second),
    ...(received ? { received_at: at(second) } : {}),
  });

  it('counts since it went on last', () => {
    const on = tickedOn([event('done', 10), event('undone', 20), event('done', 30)]);
    expect(isOfFitting(on, read(15))).toBe(false);
    expect(isOfFitting(on, read(35))).toBe(true);
    expect(isOfFitting(on, read(25, false))).toBe(true);
  });

  it('counts on although the same step is ticked twice', () => {
    const on = tickedOn([event('done', 10), event('done', 30)]);
    expect(isOfFitting(on, read(15))).toBe(true);
  });

  it('is told apart while nothing reaches the shop', () => {
    const on = tickedOn([event('done', 30, '', false)]);
    expect(isOfFitting(on, read(35))).toBe(false);
    expect(isOfFitting(on, read(25, false))).toBe(false);
    expect(isOfFitting(on, read(35, false))).toBe(true);
  });

  it('counts altogether where nobody ticked that it is on', () => {
    expect(isOfFitting(tickedOn([]), read(1))).toBe(true);
  });
});
