import { describe, expect, it } from 'vitest';
import type { CalcLobesOutput, CalcTwinLimitOutput, Lathe, Part } from '../../web/src/api/schema';
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
import { ASSUMED, isRing, toldFigures, typedFigure } from '../../web/src/chatter/figures';
import {
  discStiffness,
  forceStiffness,
  outlookOf,
  questionsOf,
  type Ring,
  ringMass,
  zetaOf,
} from '../../web/src/chatter/model';
import { below, depthsOf, edgesFor, nearest, prospectIn, prospectOf, sings } from '../../web/src/chatter/odds';
import { depthFor, figuresOfCut, figuresOfPart, speedsOf } from '../../web/src/chatter/scene';
import { bandHeard, firstToSing, ringOf, type Tone } from '../../web/src/chatter/tones';
import { marksTyped } from '../../web/src/chatter/use_marks';

const ring: Ring = { hz: 1000, zeta: 0.003, band_times: 5, u_stiffness: 0.4, u_zeta: 0.3, u_band: 0.4 };

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

describe('the stiffness of a disc at its rim', () => {
  it('is that of a fifth of its iron swinging at its tone', () => {
    // By hand: pi/4 (0.28^2 - 0.17^2) m2 x 0.022 m x 7200 kg/m3.
    expect(ringMass(ASSUMED)).toBeCloseTo(6.158, 3);
    expect(discStiffness(ASSUMED, 1000) / 1e6).toBeCloseTo((0.2 * 6.158 * (2000 * Math.PI) ** 2) / 1e6, 1);
  });
});

/** The round edge in small pieces: chip thickness from the arc of the turn before, and what each piece gives. */
function alongTheEdge(depth: number, feed: number, nose: number) {
  const [from, to] = [-Math.asin(feed / (2 * nose)), Math.acos(1 - depth / nose)];
  const n = 20_000;
  const sum = { force_n: 0, contact_mm: 0, chip_area_mm2: 0, cos: 0, into_disc: 0 };
  for (let i = 0; i < n; i += 1) {
    const angle = from + ((i + 0.5) * (to - from)) / n;
    const ds = (nose * (to - from)) / n;
    const before = feed * Math.sin(angle) + nose - Math.sqrt(nose ** 2 - (feed * Math.cos(angle)) ** 2);
    const surface = nose - (nose - depth) / Math.cos(angle);
    const chip = Math.max(1e-9, Math.min(before, surface));
    sum.force_n += 1160 * chip ** 0.74 * ds;
    sum.contact_mm += ds;
    sum.chip_area_mm2 += chip * ds;
    sum.cos += Math.cos(angle) * ds;
    sum.into_disc += 0.5 * 0.74 * 1160 * chip ** -0.26 * Math.cos(angle) ** 2 * ds;
  }
  return { ...sum, mean_cos: sum.cos / sum.contact_mm };
}

describe('what a cut pushes back', () => {
  it.each([
    [0.1, 0.1, 0.4],
    [0.1, 0.2, 0.8],
    [0.1, 0.05, 0.4],
  ])(
    '%f mm deep with a feed of %f and a nose of %f, is within a fifth of the sum along the edge',
    (depth, feed, nose) => {
      const edge = alongTheEdge(depth, feed, nose);
      const along = (edge.into_disc / depth) * 1e6;
      const ratio = forceStiffness(edge, depth) / along;
      expect(ratio).toBeGreaterThan(0.8);
      expect(ratio).toBeLessThan(1.2);
    },
  );
});

describe('the questions to the shop', () => {
  const asked = questionsOf(ASSUMED, ring, 2.6e9, true, [80, 110]);

  it('let both tools feel the disc, and the band damp the disc alone', () => {
    const [holder, disc] = asked.disc.modes;
    expect(disc).toEqual({ k_n_per_m: discStiffness(ASSUMED, 1000), zeta: 0.015, fn_hz: 1000, weight: 2 });
    expect(holder).toEqual({ k_n_per_m: 20e6, zeta: 0.03, fn_hz: 250 });
    expect(asked.tools.modes).toEqual([holder]);
    expect(asked.bare.zeta_disc).toBe(0.003);
    expect(asked.banded.zeta_disc).toBe(0.015);
    expect(asked.here).toEqual(asked.banded);
    expect(questionsOf(ASSUMED, ring, 2.6e9, false, [80]).here).toEqual(asked.bare);
  });

  it('widen what is known of the damping by what is known of the band', () => {
    expect(asked.disc.u_relative.zeta).toBeCloseTo(0.5, 12);
    expect(questionsOf(ASSUMED, ring, 2.6e9, false, [80]).disc.u_relative.zeta).toBe(0.3);
  });

  it('leave a damping that can be asked for, however much the band is said to do', () => {
    expect(zetaOf({ ...ring, zeta: 0.1, band_times: 50 }, true)).toBe(0.9);
  });
});

const lobes = (mm: number, low95: number, high95: number, limit_mm: number[]): CalcLobesOutput => ({
  limit_mm,
  absolute_limit_mm: mm,
  chatter_hz: [],
  absolute_chatter_hz: 1000,
  lobe: [],
  absolute_limit_band_mm: { low95, high95 },
  banded: null,
});
const twin = (limit_mm: number, governed_by: 'disc' | 'tools') =>
  ({
    limit_mm,
    governed_by,
    single_side_mm: 0.4,
    single_side_hz: 258,
    chatter_hz: 1010,
    tools_only_hz: 257,
  }) as CalcTwinLimitOutput;

describe('the outlook', () => {
  const answers = {
    here: twin(0.25, 'disc'),
    bare: twin(0.05, 'disc'),
    banded: twin(0.25, 'disc'),
    disc: lobes(0.25, 0.05, 1.25, [0.26, 0.6]),
    tools: lobes(0.4, 0.1, 0.9, [0.5, 0.45]),
  };

  it('holds as deep as whatever sings first, at each speed and at all', () => {
    const outlook = outlookOf(answers, 2.6e9, 5e7);
    expect(outlook.limit).toEqual({ mm: 0.25, low_mm: 0.05, high_mm: 0.9 });
    expect(outlook.at_mm).toEqual([0.26, 0.45]);
    expect(outlook.worth).toBeCloseTo(5, 12);
    expect(outlook.sings_hz).toBe(1010);
    expect(outlook.single_by).toBe('tools');
  });

  it('is that of the holders where they are softer', () => {
    expect(outlookOf({ ...answers, here: twin(0.2, 'tools') }, 2.6e9, 5e7).sings_hz).toBe(257);
  });
});

describe('the chance that a cut sings', () => {
  const limit = { mm: 0.2, low_mm: 0.05, high_mm: 0.8 };

  it('is even at the limit, and one in forty at either end of its band', () => {
    expect(sings(0.2, [limit])).toBeCloseTo(0.5, 6);
    expect(sings(0.05, [limit])).toBeCloseTo(0.025, 5);
    expect(sings(0.8, [limit])).toBeCloseTo(0.975, 5);
    expect(sings(0, [limit])).toBe(0);
    expect(sings(1, [])).toBe(0);
  });

  it('is that of whichever limit is passed sooner', () => {
    const other = { mm: 0.1, low_mm: 0.09, high_mm: 0.111 };
    expect(sings(0.15, [limit, other])).toBeCloseTo(sings(0.15, [other]), 12);
    expect(sings(0.06, [limit, other])).toBeCloseTo(sings(0.06, [limit]), 12);
  });

  it('jumps where the limit is known exactly', () => {
    const exact = { mm: 0.2, low_mm: 0.2, high_mm: 0.2 };
    expect([sings(0.19, [exact]), sings(0.21, [exact])]).toEqual([0, 1]);
  });

  it('is said in three words, by the confidence that the shop asks for', () => {
    expect([0.05, 0.06, 0.94, 0.95].map((p) => prospectOf(p, 0.95))).toEqual(['holds', 'may', 'may', 'sings']);
    const [low, high] = edgesFor([limit], 0.95, 10);
    expect(sings(low, [limit])).toBeCloseTo(0.05, 5);
    expect(sings(high, [limit])).toBeCloseTo(0.95, 5);
    expect(edgesFor([limit], 0.95, 0.3)[1]).toBe(0.3);
    expect([low / 2, (low + high) / 2, high * 2].map((mm) => prospectIn(mm, low, high))).toEqual([
      'holds',
      'may',
      'sings',
    ]);
  });

  it('rests on the bell curve', () => {
    // Abramowitz and Stegun, table 26.1.
    for (const [z, p] of [
      [0, 0.5],
      [1, 0.8413447],
      [-1, 0.1586553],
      [1.96, 0.9750021],
      [-3, 0.0013499],
    ] as const) {
      expect(below(z)).toBeCloseTo(p, 6);
    }
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

  it('tells what the band does where the same tone is heard with it on', () => {
    expect(bandHeard(tone(1000, 0.002), [tone(980, 0.012), tone(1090, 0.02)])).toBeCloseTo(6, 12);
    expect(bandHeard(tone(1000, 0.002), [tone(1200, 0.012)])).toBeNull();
    expect(bandHeard(tone(1000, 0.002), [tone(1000, 0.001)])).toBe(1);
    expect(bandHeard(tone(1000, 0.002), null)).toBeNull();
  });

  it('comes by the way that was chosen, and from its size while that has told nothing', () => {
    expect(ringOf('size', { ...nothing, marks_hz: 700 }, ASSUMED)?.ring.hz).toBe(1032);
    expect(ringOf('tap', nothing, ASSUMED)?.by).toBe('size');
    expect(ringOf('marks', { ...nothing, marks_hz: 700 }, ASSUMED)).toMatchObject({ by: 'marks', ring: { hz: 700 } });
    expect(ringOf('size', { ...nothing, by_size_hz: null }, ASSUMED)).toBeNull();
  });

  it('is known better from a tap than from its size', () => {
    const [sized, tapped] = [
      ringOf('size', nothing, ASSUMED),
      ringOf('tap', { ...nothing, tone: tone(1000, 0.002) }, ASSUMED),
    ];
    expect(tapped?.ring.zeta).toBe(0.002);
    expect(tapped?.ring.u_zeta).toBeLessThan(sized?.ring.u_zeta ?? 0);
    expect(tapped?.ring.u_stiffness).toBeLessThan(sized?.ring.u_stiffness ?? 0);
    const both = ringOf('tap', { ...nothing, tone: tone(1000, 0.002), band_times: 6 }, ASSUMED);
    expect(both?.ring.band_times).toBe(6);
    expect(both?.ring.u_band).toBeLessThan(tapped?.ring.u_band ?? 0);
  });

  it('heard with the band on alone is taken back by what the band is assumed to do', () => {
    const found = ringOf('tap', { ...nothing, tone: tone(1000, 0.01), with_band: true }, ASSUMED);
    expect(found?.ring.zeta).toBeCloseTo(0.002, 12);
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
