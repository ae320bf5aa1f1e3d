import { describe, expect, it } from 'vitest';
import type { Entry } from '../../web/src/api/outbox';
import type { JobFile, Reading } from '../../web/src/api/schema';
import { isRead, meanAt, shownReadings } from '../../web/src/measure/shown';
import { nextWanted, slotsOf, stepFrom, TABS, tabsOf, tabsOnCar } from '../../web/src/measure/slots';

const thickness = TABS[0];
const slots = thickness ? slotsOf(thickness, { points: 4, circles_from_edge_nm: [1, 2] }) : [];
const slot = { quantity: 'thickness', circle: 0, point: 0 } as const;

const reading = (id: string, nm: number, more: Partial<Reading> = {}): Reading => ({
  id,
  job_id: 'job',
  part_id: 'part',
  stage: 'before',
  ...slot,
  angle_deg: 0,
  value: { text: String(nm / 1e6), unit: 'mm', nm, resolution_nm: 1000 },
  confirmed_doubts: [],
  by_person_id: 'p',
  taken_at: `2026-01-01T00:00:0${id.length}.000Z`,
  received_at: '2026-01-01T00:00:00.000Z',
  state: 'current',
  ...more,
});
const file = (readings: Reading[]) => ({ job: { id: 'job' }, readings }) as unknown as JobFile;
const entry = (id: string, path: string, body?: object, state: Entry['state'] = 'waiting'): Entry => ({
  id,
  made_at: 0,
  about: path.endsWith('withdraw') ? 'withdrawal' : 'reading',
  job_id: 'job',
  state,
  sent: { method: 'post', path, query: {}, body },
});
const typed = (id: string, more = {}) => ({
  id,
  part_id: 'part',
  stage: 'before',
  ...slot,
  text: '23.4',
  default_unit: 'mm',
  taken_at: '2026-01-01T00:00:09.000Z',
  ...more,
});

describe('what is gone round', () => {
  it('is every point of the outer circle, then of the next', () => {
    expect(slots).toHaveLength(8);
    expect(slots[4]).toEqual({ quantity: 'thickness', circle: 1, point: 0 });
  });

  it('goes on to the next point without a reading, round past the last', () => {
    const read = new Set([2, 3, 4, 5, 6, 7]);
    const isDone = (one: (typeof slots)[number]) => read.has(slots.indexOf(one));
    expect(nextWanted(slots, isDone, slots[3] ?? null)).toEqual(slots[0]);
    expect(nextWanted(slots, () => true, null)).toBeNull();
  });

  it('is stepped through with the arrows, round both ends', () => {
    expect(stepFrom(slots, slots[7] ?? null, 1)).toEqual(slots[0]);
    expect(stepFrom(slots, slots[0] ?? null, -1)).toEqual(slots[7]);
    expect(stepFrom([], null, 1)).toBeNull();
  });

  it('has no finish before the cut, and no bore after it', () => {
    expect(tabsOf('before').map((tab) => tab.name)).not.toContain('roughness');
    expect(tabsOf('after').map((tab) => tab.name)).not.toContain('bore');
  });
  it('asks for the cheeks of a vented rotor at both stages, and of no solid one', () => {
    for (const stage of ['before', 'after'] as const) {
      expect(tabsOf(stage, { vented: true }).map((tab) => tab.name)).toContain('cheek');
      expect(tabsOf(stage, { vented: false }).map((tab) => tab.name)).not.toContain('cheek');
    }
  });
});

describe('what counts at a point', () => {
  it('is the mean of the repeats that the shop has read', () => {
    const shown = shownReadings(file([reading('a', 23_400_000), reading('bb', 23_402_000)]), [], 'part', 'before');
    expect(meanAt(shown, slot)).toBe(23_401_000);
  });

  it('leaves out what is superseded or withdrawn, in the shop or on its way there', () => {
    const there = [reading('a', 1e6), reading('b', 2e6, { state: 'superseded' }), reading('c', 3e6), reading('d', 4e6)];
    const waiting = [
      entry('1', '/jobs/job/readings', typed('e', { supersedes_id: 'c' })),
      entry('2', '/jobs/job/readings/d/withdraw'),
    ];
    const shown = shownReadings(file(there), waiting, 'part', 'before');
    expect(shown.map((one) => [one.id, one.state])).toEqual([
      ['a', 'saved'],
      ['e', 'waiting'],
    ]);
  });

  it('does not show a reading twice while its answer is on the way', () => {
    const shown = shownReadings(
      file([reading('a', 1e6)]),
      [entry('1', '/jobs/job/readings', typed('a'))],
      'part',
      'before',
    );
    expect(shown).toHaveLength(1);
  });

  it('is not read while the reading is questioned, and what it would replace still counts', () => {
    const doubtful = entry('1', '/jobs/job/readings', typed('b', { supersedes_id: 'a' }), 'questioned');
    const alone = shownReadings(file([]), [doubtful], 'part', 'before');
    expect(isRead(alone, slot)).toBe(false);
    const both = shownReadings(file([reading('a', 1e6)]), [doubtful], 'part', 'before');
    expect(both.map((one) => one.id)).toEqual(['a', 'b']);
  });
});

describe('readings on the car', () => {
  const names = (turns: number[]) => tabsOnCar(turns).map((one) => `${one.name}${one.turned ?? ''}`);

  it('begin with the bearing, then the part as it came, the bare hub, and the part turned', () => {
    expect(names([])).toEqual(['bearing_play', 'on_hub0', 'hub_runout']);
    expect(names([2, 0, 3])).toEqual(['bearing_play', 'on_hub0', 'hub_runout', 'on_hub2', 'on_hub3']);
  });

  it('go round once in each position, and the position is their circle', () => {
    const turned = tabsOnCar([2]).at(-1);
    expect(turned && slotsOf(turned, { points: 4, circles_from_edge_nm: [1, 2] })).toEqual(
      [0, 1, 2, 3].map((point) => ({ quantity: 'runout_outboard', circle: 2, point })),
    );
  });

  it('go once round the bare hub, and take the play of the bearing as one figure', () => {
    const [play, , hub] = tabsOnCar([]);
    const plan = { points: 8, circles_from_edge_nm: [1] };
    expect(play && slotsOf(play, plan)).toEqual([{ quantity: 'bearing_play', circle: 0, point: 0 }]);
    expect(hub && slotsOf(hub, plan)).toHaveLength(8);
  });
});
