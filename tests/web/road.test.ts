import { describe, expect, it } from 'vitest';
import { heatingOf, heatRows } from '../../web/src/road/rows';
import { wantedFor, wayTo } from '../../web/src/road/ways';
import { queryOf, wished, wishesFor } from '../../web/src/road/wish';
import { wearRange, wearText } from '../../web/src/show/wear';

const disc = (rise: number, band: { low: number; high: number } | null) => ({
  stop: { rise_surface_max_k: rise, rise_surface_max_band_k: band },
  repeats: { stops: [{ surface_max_c: { low: 90, high: 100 } }, { surface_max_c: { low: 120, high: 160 } }] },
});

describe('what the cut changes on the road', () => {
  it('lays the discs that are known beside each other, the thickest first, each with its range', () => {
    const part = { heat_new: null, heat_before: disc(100, { low: 90, high: 115 }), heat_after: disc(110, null) };
    const rows = heatRows({ ...part, heat_discard: disc(130, null) } as never);
    expect(rows.map((row) => [row.which, row.low_k, row.rise_k, row.high_k])).toEqual([
      ['before', 90, 100, 115],
      ['after', 110, 110, 110],
      ['discard', 130, 130, 130],
    ]);
  });
  it('tells the last of several stops, and nothing of none', () => {
    const heating = heatingOf('before', disc(100, null) as never);
    expect(heating?.stops).toHaveLength(2);
    expect(heating?.last).toEqual({ low_c: 120, high_c: 160 });
    expect(heatingOf('after', null)).toBeNull();
  });
  it('says a distance to two places', () => {
    expect(wearText(4.2345, '10 000 km')).toBe('42 000 km');
    expect(wearText(0.0873, '10 000 km')).toBe('870 km');
    expect(wearText(12.34, '10 000 km')).toBe('120 000 km');
    expect(wearText(2.345, 'year')).toBe('2.3 years');
    expect(wearText(0, '10 000 km')).toBe('0 km');
    expect(wearRange({ low95: 2.31, high95: 4.26, unit: '10 000 km' })).toBe('23 000 to 43 000 km');
    expect(wearRange({ low95: 0, high95: 1.25, unit: 'year' })).toBe('0 to 1.3 years');
  });
});

describe('the stop that is counted with', () => {
  it('takes what can be, in the shop’s own measure, and leaves aside what cannot', () => {
    expect(queryOf({ speed: '120', stops: '15', share: '70', interval: 'soon', cheek: '', other: '3' })).toEqual({
      speed_km_per_h: 120,
      stops: 15,
      axle_share: 0.7,
    });
  });
  it('is asked for what bears on the part: nothing of a drum, a cheek of a vented disc alone', () => {
    expect(wishesFor({ kind: 'drum', vented: false })).toEqual([]);
    expect(wishesFor({ kind: 'drum_in_hat', vented: true })).toEqual([]);
    expect(wishesFor({ vented: false })).toEqual(['speed', 'stops', 'interval', 'share']);
    expect(wishesFor({ kind: 'disc', vented: true })).toContain('cheek');
  });
  it('knows what is no stop', () => {
    expect(wished('speed', '5')).toBe('wrong');
    expect(wished('speed', '1000')).toBe('wrong');
    expect(wished('stops', '2.5')).toBe('wrong');
    expect(wished('stops', 'many')).toBe('wrong');
    expect(wished('share', '0')).toBe('wrong');
    expect(wished('cheek', '7,5')).toBe(7.5);
    expect(wished('interval', ' ')).toBeNull();
  });
});

describe('a figure that the road still needs', () => {
  it.each([
    ['job.vehicle_mass_kg', '/jobs/7/arrival', 'heat'],
    ['job.tyre', '/jobs/7/arrival', 'felt'],
    ['readings.thickness', '/jobs/7/before?part=left', 'heat'],
    ['readings.cheek_outboard', '/jobs/7/before?part=left&of=cheek', 'heat'],
    ['readings.runout_outboard', '/jobs/7/car?part=left', 'growth'],
    ['readings.thickness_after', '/jobs/7/after?part=left', 'growth'],
    ['part.limits.runout', '/jobs/7/limits', 'growth'],
    ['part.limits.variation', '/jobs/7/limits', 'growth'],
    ['part.limits.discard', '/jobs/7/limits', 'wear'],
    ['settings.wear_mm_per_10000_km', '/shop/rules', 'wear'],
  ])('%s is told at %s and stands beside the picture of %s', (field, to, picture) => {
    expect(wayTo(field, 7, 'left')?.to).toBe(to);
    expect(wantedFor(field)).toBe(picture);
  });
  it('is asked for on the spot where no page is for it', () => {
    expect(wayTo('part.outer_diameter', 7, 'left')).toBeNull();
  });
});
