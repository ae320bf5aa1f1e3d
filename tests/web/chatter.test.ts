import { describe, expect, it } from 'vitest';
import type { Lathe, Part } from '../../web/src/api/schema';
import {
  askedSpeeds,
  between,
  depthAt,
  type Plane,
  ticksOf,
  wordAt,
  xOf,
  yOf,
} from '../../web/src/chatter/chart_geometry';
import { depthsOf, nearest, prospectIn } from '../../web/src/chatter/depths';
import { ASSUMED, isRing, toldFigures, typedFigure } from '../../web/src/chatter/figures';
import { depthFor, figuresOfCut, figuresOfPart, speedsOf } from '../../web/src/chatter/scene';
import {
  aloneHeard,
  bandHeard,
  barePercent,
  firstToSing,
  pickedOf,
  ringOf,
  type Tone,
} from '../../web/src/chatter/tones';
import { marksTyped } from '../../web/src/chatter/use_marks';

describe('what chatter is counted with', () => {
  it('is what was typed, else of the job, else of the shop, else assumed', () => {
    const { told, figures } = toldFigures({ outer_mm: 300 }, { outer_mm: 288, inner_mm: 176 }, { nose_mm: 0.8 });
    expect(told.outer_mm).toEqual({ value: 300, from: 'typed' });
    expect(told.inner_mm).toEqual({ value: 176, from: 'job' });
    expect(told.nose_mm).toEqual({ value: 0.8, from: 'shop' });
    expect(told.holder_hz).toEqual({ value: ASSUMED.holder_hz, from: 'assumed' });
    expect(figures).toEqual({ ...ASSUMED, outer_mm: 300, inner_mm: 176, nose_mm: 0.8 });
  });

  it('takes a figure within its range, nothing for nothing, and says where it is wrong', () => {
    expect(typedFigure('outer_mm', 280, '280')).toBe(280);
    expect(typedFigure('outer_mm', null, ' ')).toBeNull();
    expect(typedFigure('outer_mm', 28, '28')).toBe('wrong');
    expect(typedFigure('outer_mm', null, 'wide')).toBe('wrong');
  });

  it('wants a hole that is smaller than the disc', () => {
    expect(isRing(ASSUMED)).toBe(true);
    expect(isRing({ ...ASSUMED, inner_mm: 270 })).toBe(false);
    expect(isRing({ ...ASSUMED, inner_mm: 300 })).toBe(false);
  });

  it('comes from the job’s disc, the deepest pass of its plan, its insert and its lathe', () => {
    const length = (nm: number) => ({ text: '', unit: 'mm', nm });
    const part = {
      outer_diameter: length(288_000_000),
      seat: { ring_inner: length(176_000_000) },
      limits: { nominal: { value: length(25_000_000) }, discard: { value: length(23_000_000) } },
    } as unknown as Part;
    expect(figuresOfPart(part)).toEqual({ outer_mm: 288, inner_mm: 176, thickness_mm: 25 });
    expect(figuresOfPart(null)).toEqual({});
    const pass = (outboard_marks: number, inboard_marks: number, feed_mm_per_rev: number) =>
      ({ outboard_marks, inboard_marks, feed_mm_per_rev, rpm: 110 }) as never;
    const plan = { passes: [pass(2, 5, 0.2), pass(3, 3, 0.1)], insert_id: 'b' };
    const inserts = [
      { id: 'a', active: true, nose_radius_nm: 400_000 },
      { id: 'b', active: true, nose_radius_nm: 800_000 },
    ] as never;
    const lathe = { feeds_mm_per_rev: [0.15, 0.05, 0.1], speeds_rpm: [150, 80] } as Lathe;
    expect(figuresOfCut(plan, lathe, { inserts })).toEqual({ feed_mm_per_rev: 0.2, nose_mm: 0.8 });
    expect(figuresOfCut(null, lathe, { inserts })).toEqual({ feed_mm_per_rev: 0.1, nose_mm: 0.4 });
    expect(depthFor(plan, { outboard_um: 20, inboard_um: 25 }, 100)).toBeCloseTo(0.125, 12);
    expect(depthFor(null, { outboard_um: 20, inboard_um: 25 }, 80)).toBeCloseTo(0.08, 12);
    expect(speedsOf(lathe)).toEqual({ rpm: [80, 150], told: true });
    expect(speedsOf(null).told).toBe(false);
  });
});

describe('the depths that are tried', () => {
  it('are marks of the dial', () => {
    const depths = depthsOf(25.4, 0.5);
    expect(depths).toHaveLength(19);
    expect(depths[0]).toBeCloseTo(0.0254, 12);
    expect(nearest(depths, 0.1)).toBeCloseTo(0.1016, 12);
    expect(nearest(depths, 9)).toBe(depths.at(-1));
    expect(depthsOf(800, 0.5)).toEqual([0.8]);
  });

  it('are said in three words, by the edges between which they may sing', () => {
    expect([0.1, 0.11, 0.3].map((mm) => prospectIn(mm, 0.1, 0.3))).toEqual(['holds', 'may', 'sings']);
  });
});

describe('the chart', () => {
  const plane: Plane = {
    width: 390,
    height: 380,
    left: 58,
    right: 8,
    top: 16,
    bottom: 58,
    most_mm: 0.5,
    least_rpm: 60,
    most_rpm: 187.5,
  };

  it('gives back the depth of a height, and keeps what is off it on its edge', () => {
    for (const mm of [0, 0.1, 0.25, 0.5]) expect(depthAt(plane, yOf(plane, mm))).toBeCloseTo(mm, 12);
    expect(yOf(plane, 7)).toBe(16);
    expect(xOf(plane, 60)).toBe(58);
    expect(xOf(plane, 187.5)).toBe(382);
  });

  it('asks about the lathe’s own speeds behind those of its curve', () => {
    const { curve, all } = askedSpeeds([80, 110, 150]);
    expect(curve[0]).toBe(60);
    expect(curve.at(-1)).toBeCloseTo(187.5, 12);
    expect(all.slice(curve.length)).toEqual([80, 110, 150]);
  });

  it('draws what lies between two lines, the upper one there and the lower one back', () => {
    expect(between(plane, [60, 187.5], [0, 0], [0.5, null])).toBe('M58.0 16.0L382.0 16.0L382.0 322.0L58.0 322.0Z');
  });

  it('writes round depths, and a word only where there is room', () => {
    expect(ticksOf(0.5).map((mm) => mm.toFixed(1))).toEqual(['0.0', '0.1', '0.2', '0.3', '0.4', '0.5']);
    expect(wordAt(100, 200, 300)).toBe(155);
    expect(wordAt(100, 110, 300)).toBeNull();
    expect(wordAt(100, 200, 155)).toBe(132.5);
    expect(wordAt(100, 200, 145)).toBe(177.5);
    expect(wordAt(100, 130, 118)).toBeNull();
  });
});

const tone = (hz: number, zeta: number): Tone => ({
  hz,
  u_hz: 1,
  zeta,
  u_zeta: zeta / 100,
  level_db: 0,
  paired: false,
  diameters: 2,
  circles: 0,
  plate_hz: hz,
  p_mode: 0.9,
});

describe('the tone of the disc', () => {
  const nothing = { by_size_hz: 1032, tone: null, with_band: false, band_times: null, marks_hz: null };

  it('that sings first is low and little damped', () => {
    const tones = [tone(900, 0.004), tone(1000, 0.002), tone(2300, 0.002)];
    expect(firstToSing(tones)).toBe(tones[1]);
    expect(firstToSing([])).toBeNull();
    expect(firstToSing([tone(900, 0)])).toBeNull();
  });

  it('counts a tap without the band as none where it had no tones', () => {
    expect(aloneHeard({ off: [], on: [tone(900, 0.01)] })).toBeNull();
    expect(aloneHeard({ off: [tone(900, 0.01)], on: null })).toHaveLength(1);
  });

  it('stays picked by its frequency, as it is kept, among those that are offered', () => {
    const taps = { off: [tone(900, 0.01), tone(1000, 0.002)], on: [tone(980, 0.012)] };
    expect(pickedOf(JSON.parse(JSON.stringify(taps)), 1000)).toEqual(taps.off[1]);
    expect(pickedOf(taps, 980)).toBeNull();
    expect(pickedOf({ off: null, on: taps.on }, 980)).toBe(taps.on[0]);
    expect(pickedOf(taps, null)).toBeNull();
  });

  it('tells what the band does where the same tone is heard with it on', () => {
    expect(bandHeard(tone(1000, 0.002), [tone(980, 0.012), tone(1090, 0.02)])).toBeCloseTo(6, 12);
    expect(bandHeard(tone(1000, 0.002), [tone(1200, 0.012)])).toBeNull();
    expect(bandHeard(tone(1000, 0.002), [tone(1000, 0.001)])).toBe(1);
    expect(bandHeard(tone(1000, 0.002), null)).toBeNull();
  });

  it('comes by the way that was chosen, and from its size while that has told nothing', () => {
    expect(ringOf('size', { ...nothing, marks_hz: 700 }, ASSUMED)?.hz).toBe(1032);
    expect(ringOf('tap', nothing, ASSUMED)?.by).toBe('size');
    expect(ringOf('marks', { ...nothing, marks_hz: 700 }, ASSUMED)).toMatchObject({ by: 'marks', hz: 700 });
    expect(ringOf('size', { ...nothing, by_size_hz: null }, ASSUMED)).toBeNull();
  });

  it('goes to the shop as it was heard, and with what is assumed where nothing was', () => {
    expect(ringOf('size', nothing, ASSUMED)).toEqual({ by: 'size', hz: 1032, zeta: 0.003, band_factor: 5 });
    expect(ringOf('tap', { ...nothing, tone: tone(1000, 0.002), band_times: 6 }, ASSUMED)).toEqual({
      by: 'tap',
      hz: 1000,
      zeta: 0.002,
      u_zeta: 0.00002,
      band_factor: 6,
      band_heard: true,
      heard_with_band: false,
    });
  });

  it('heard with the band on alone is taken back by what the band is assumed to do', () => {
    const found = ringOf('tap', { ...nothing, tone: tone(1000, 0.01), with_band: true }, ASSUMED);
    expect(found).toMatchObject({ zeta: 0.01, heard_with_band: true, band_heard: false });
    expect(found && barePercent(found)).toBeCloseTo(0.2, 12);
  });
});

describe('marks on a spoilt face', () => {
  it('are ten gaps at the middle of the ring where nobody says how far out', () => {
    expect(marksTyped({ gaps: '65,5', radius: '', rpm: 110 }, ASSUMED).marks).toEqual({
      spacing_mm: 6.55,
      u_spacing_mm: 0.05,
      radius_mm: 112.5,
      rpm: 110,
    });
  });

  it('that lie off the ring or are no number are asked for again', () => {
    expect(marksTyped({ gaps: '65', radius: '40', rpm: 110 }, ASSUMED)).toMatchObject({ radius: 'wrong', marks: null });
    expect(marksTyped({ gaps: 'many', radius: '', rpm: 110 }, ASSUMED)).toMatchObject({ gaps: 'wrong', marks: null });
    expect(marksTyped({ gaps: '', radius: '', rpm: 110 }, ASSUMED)).toMatchObject({ gaps: null, marks: null });
  });
});
