import { describe, expect, it } from 'vitest';
import { feltPoint, litOrder, placeFor, standingOf } from '../../web/src/detective/case';
import { orderAt, zonesOf } from '../../web/src/detective/heard';
import { type OrderRow, orderAxes, outTo } from '../../web/src/pictures/order_axes';

const ROLLS_M = { low: 1.9, middle: 1.95, high: 2.0 };
const beats = (order: number, speed: number, metres: number) => (order * speed) / 3.6 / metres;
const row = (order: number, speed_km_per_h: number): OrderRow => ({
  order,
  speed_km_per_h,
  low_hz: beats(order, speed_km_per_h, ROLLS_M.high),
  hz: beats(order, speed_km_per_h, ROLLS_M.middle),
  high_hz: beats(order, speed_km_per_h, ROLLS_M.low),
});
const TABLE = [50, 90, 130].flatMap((speed) => [1, 2, 3, 4].map((order) => row(order, speed)));
const NOWHERE = { speed_km_per_h: null, hz: null, u_hz: 0 };

describe('the picture of wheel orders', () => {
  it('holds the point that was felt, with air about it', () => {
    const axes = orderAxes(TABLE, { speed_km_per_h: 180, hz: 60, u_hz: 2 });
    expect(axes.most_km_per_h).toBeGreaterThan(180);
    expect(axes.most_hz).toBeGreaterThan(64);
  });
  it('shows the first two orders whole where nothing is felt yet', () => {
    const axes = orderAxes(TABLE, NOWHERE);
    expect(axes.most_km_per_h).toBe(130);
    expect(axes.most_hz).toBeGreaterThan(beats(2, 130, ROLLS_M.middle));
    expect(axes.bands.map((band) => band.order)).toEqual([1, 2, 3, 4]);
  });
  it('puts the label where a band leaves the frame: at its side, or at its top', () => {
    const axes = orderAxes(TABLE, NOWHERE);
    const [once, , , four] = axes.bands;
    expect(once?.leaves.speed_km_per_h).toBe(130);
    expect(four?.leaves.hz).toBe(axes.most_hz);
    expect(four?.leaves.speed_km_per_h ?? 999).toBeLessThan(130);
  });
  it('carries a band on to any speed by its beats to a turn', () => {
    const end = outTo(axesRows(1), 260);
    expect(end?.hz).toBeCloseTo(beats(1, 260, ROLLS_M.middle), 9);
    expect(end?.low_hz).toBeCloseTo(beats(1, 260, ROLLS_M.high), 9);
    expect(outTo([], 100)).toBeNull();
  });
});

const axesRows = (order: number) => TABLE.filter((one) => one.order === order);

const fit = (order: number, probability: number, expected_hz: number | null) => ({
  order,
  probability,
  expected_hz,
  off_percent: null,
  z: null,
});

describe('a pulsation held against the wheel', () => {
  it('is sure, unsure, none of the wheel’s or not known yet', () => {
    expect(standingOf({ orders: [] })).toBe('unknown');
    expect(standingOf({ orders: [fit(1, 0.95, 11)] })).toBe('sure');
    expect(standingOf({ orders: [fit(1, 0.6, 11), fit(2, 0.4, 22)] })).toBe('unsure');
    expect(standingOf({ orders: [fit(0, 0.9, null), fit(1, 0.1, 11)] })).toBe('none');
    expect(litOrder({ orders: [fit(2, 0.9, 22)] })).toBe(2);
    expect(litOrder({ orders: [fit(0, 0.9, null)] })).toBeNull();
    expect(litOrder({ orders: [] })).toBeNull();
  });
  it('stands at its true speed, not at the one that a speedometer shows', () => {
    const once = beats(1, 77.6, ROLLS_M.middle);
    const wheel = { circumference_m: ROLLS_M.middle };
    const told = { felt_speed_km_per_h: 80, felt_frequency_hz: 11, u_frequency_hz: 0.5 };
    const at = feltPoint({ ...told, wheel, orders: [fit(2, 0.7, 2 * once), fit(1, 0.3, once)] } as never);
    expect(at.speed_km_per_h).toBeCloseTo(77.6, 9);
    expect(at).toMatchObject({ hz: 11, u_hz: 0.5 });
    const untold = feltPoint({ ...told, wheel: null, orders: [], u_frequency_hz: null } as never);
    expect(untold).toEqual({ speed_km_per_h: 80, hz: 11, u_hz: 0 });
  });
  it('sends each missing figure to where it is typed', () => {
    expect(placeFor('job.tyre', 7)).toEqual({ to: '/jobs/7/arrival', at: 'arrival' });
    expect(placeFor('readings.thickness', 7)).toEqual({ to: '/jobs/7/before', at: 'measure' });
  });
});

describe('a line of a recording', () => {
  const answer = {
    table: [row(1, 80), row(2, 80)],
    orders: [
      fit(0, 0.1, null),
      fit(2, 0.1, 2 * beats(1, 77.6, ROLLS_M.middle)),
      fit(1, 0.8, beats(1, 77.6, ROLLS_M.middle)),
    ],
  };
  it('is given the order whose place it has at the true speed, as wide as tyre and speed are uncertain', () => {
    const zones = zonesOf(answer);
    expect(zones.map((zone) => zone.order)).toEqual([1, 2]);
    expect(orderAt(beats(1, 77.6, ROLLS_M.middle), zones)).toBe(1);
    expect(orderAt(beats(2, 77.6, ROLLS_M.low), zones)).toBe(2);
    expect(orderAt(beats(1.5, 77.6, ROLLS_M.middle), zones)).toBeNull();
  });
  it('has no order where none was expected', () => {
    expect(zonesOf({ table: [], orders: [fit(1, 1, 11)] })).toEqual([]);
    expect(orderAt(11, [])).toBeNull();
  });
});
