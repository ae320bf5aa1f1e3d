import { describe, expect, it } from 'vitest';
import { marksOf, oddMarks } from '../../web/src/cut/marks';
import { finishOf, finishState } from '../../web/src/finish/finish_steps';
import { toolTravel } from '../../web/src/guide/dials';
import { bandWidth } from '../../web/src/guide/equipment';
import { facesOf } from '../../web/src/guide/faces';
import { guideState } from '../../web/src/guide/sequence';
import { seatFields } from '../../web/src/mount/seat_fields';
import { drawStack } from '../../web/src/mount/stack_geometry';
import { layersOf, withOneMore } from '../../web/src/plan/what_if';

const drum = { kind: 'drum', construction: 'hubless' } as const;

describe('a drum on the lathe', () => {
  it('has one surface, one tool and one dial', () => {
    expect(facesOf(drum)).toEqual(['outboard']);
    expect(facesOf({})).toEqual(['outboard', 'inboard']);
    const task = { passes: 1, outboard: true, inboard: false, recorded_before: 0, recorded: 0 };
    const steps = guideState(task, []).steps.map((one) => one.word);
    expect(steps).toContain('touch_outboard');
    expect(steps.filter((word) => word.endsWith('inboard'))).toEqual([]);
  });

  it('gets a light last pass on that one dial alone', () => {
    const [pass] = withOneMore([], null, facesOf(drum));
    expect(pass).toMatchObject({ outboard_marks: 2, inboard_marks: 0 });
    const dials = { outboard_um: 25, inboard_um: 25 };
    expect(layersOf(pass ? [pass] : [], dials, facesOf(drum))).toEqual([
      { pass: 0, face: 'outboard', from_um: 0, to_um: 50 },
    ]);
  });

  it('is not asked about a second side that was not cut', () => {
    expect(oddMarks({ outboard: 4, inboard: 0 }, { outboard: 4, inboard: 0 }, 1)).toBeNull();
    expect(oddMarks({ outboard: 6, inboard: 0 }, null, 1)).toBeNull();
    expect(oddMarks({ outboard: 0, inboard: 0 }, null, 1)).toBe('no_side');
    expect(oddMarks({ outboard: marksOf('40') ?? 0, inboard: 0 }, { outboard: 4, inboard: 0 }, 1)).toBe('far_off');
  });

  it('lets the tool start half the approach before the band and end half beyond it', () => {
    const pass = { time_s: 600, rpm: 60, feed_mm_per_rev: 0.1 };
    expect(toolTravel(50, pass, 0)).toBeCloseTo(-5);
    expect(toolTravel(50, pass, 300)).toBeCloseTo(25);
    expect(toolTravel(50, pass, 9999)).toBeCloseTo(55);
  });

  it('has a band only where its width is known', () => {
    const part = { ...drum, id: '', side: 'left', vented: false, limits: {} } as const;
    expect(bandWidth(part)).toBeNull();
    expect(bandWidth({ ...part, band_width: { text: '45', unit: 'mm', nm: 45e6, resolution_nm: 1e6 } })).toBe(45);
  });

  it('needs no inner edge of a ring for its stack', () => {
    expect(seatFields(drum).map((one) => one.name)).not.toContain('ring_inner');
    expect(seatFields({ construction: 'hubless' }).map((one) => one.name)).toContain('ring_inner');
  });

  it('is drawn as closed end and wall, with what is not on record marked as such', () => {
    const rotor = {
      hubbed: false,
      bore_mm: 60,
      flange_mm: 8,
      flat_outer_mm: 140,
      hub_length_mm: 80,
      inner_race_mm: 60,
      outer_race_mm: 50,
      outer_diameter_mm: null,
      ring_inner_mm: null,
      thickness_mm: null,
      hat_height_mm: null,
    };
    const drawn = (diameter_mm: number | null) =>
      drawStack([], { ...rotor, drum: { diameter_mm, depth_mm: 45 } }).shapes;
    expect(drawn(254).map((one) => [one.key, one.guessed])).toEqual([['rotor', false]]);
    expect(drawn(254)[0]?.points.map(([, r]) => r)).toContain(127);
    expect(drawn(null)[0]?.guessed).toBe(true);
  });
});

describe('finishing a drum', () => {
  it('sands the one surface, then washes', () => {
    expect(finishOf(drum)).toEqual(['sand_outboard', 'washed', 'cloth_white', 'cool']);
    const sanded = { id: '1', step: 'sand_outboard', pass: 0, event: 'done', detail: '', at_ms: 1, waiting: false };
    expect(finishState([sanded as never], finishOf(drum)).at).toBe('washed');
    expect(finishState([sanded as never]).at).toBe('sand_inboard');
  });
});
