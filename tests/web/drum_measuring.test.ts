import { describe, expect, it } from 'vitest';
import { limitNamesOf, plausibleMm } from '../../web/src/limits/figures';
import { houseMachineTo, limitDoubts } from '../../web/src/limits/limit_doubts';
import { angleOfPoint, slotsOf, spreadOf, tabsOf } from '../../web/src/measure/slots';

const drum = { kind: 'drum', construction: 'hubless' } as const;
const limit = (mm: number) => ({
  value: { text: `${mm}`, unit: 'mm' as const, nm: Math.round(mm * 1e6), resolution_nm: 10_000 },
  source: 'cast_on_part' as const,
  source_note: '',
});

describe('limits of a drum', () => {
  it('lie the other way round than a rotor’s: new is the least, discard the largest', () => {
    const right = { nominal: limit(254), machine_to: limit(255.5), discard: limit(256.3) };
    expect(limitDoubts(right, true)).toEqual([]);
    expect(limitDoubts(right).map((one) => one.code)).toHaveLength(3);
    const changed = { machine_to: limit(256.3), discard: limit(255.5) };
    expect(limitDoubts(changed, true).map((one) => one.code)).toEqual(['machine_to_not_over_discard']);
  });

  it('ask for out-of-round and taper in the place of variation and runout', () => {
    const names = limitNamesOf(drum);
    expect(names).toContain('out_of_round');
    expect(names).toContain('taper');
    expect(names).not.toContain('variation');
    expect(limitNamesOf({})).not.toContain('out_of_round');
  });

  it('are asked about where they are no diameter, and a rotor’s where they are no thickness', () => {
    expect(plausibleMm('discard', true)).toEqual([50, 1500]);
    expect(plausibleMm('discard', false)).toEqual([4, 60]);
    expect(plausibleMm('scoring', true)).toEqual(plausibleMm('scoring', false));
  });

  it('take the house’s allowance off discard', () => {
    expect(houseMachineTo({ nm: 256_300_000, resolution_nm: 10_000 }, 380_000, true)).toBe(255_920_000);
  });
});

describe('going over a drum', () => {
  const [diameter, inside] = tabsOf('before', drum);
  const plan = { points: 4, circles_from_edge_nm: [10e6, 40e6] };

  it('reads one depth all round, then the next', () => {
    expect(diameter && slotsOf(diameter, plan, true).map((one) => [one.circle, one.point])).toEqual([
      [0, 0],
      [0, 1],
      [0, 2],
      [0, 3],
      [1, 0],
      [1, 1],
      [1, 2],
      [1, 3],
    ]);
  });

  it('spreads its diameters over half a turn, and the indicator inside at the same steps over the whole', () => {
    const across = spreadOf({ name: 'diameter' }, 4, true);
    expect([0, 1, 2, 3].map((point) => angleOfPoint(point, across))).toEqual([0, 45, 90, 135]);
    const round = spreadOf({ name: 'runout_outboard' }, 4, true);
    expect(round).toEqual({ points: 8, over_deg: 360 });
    expect(angleOfPoint(1, round)).toBe(45);
    expect(spreadOf({ name: 'runout_outboard' }, 16, true).points).toBe(24);
    expect(spreadOf({ name: 'runout_outboard' }, 16, false).points).toBe(16);
  });

  it('asks for nothing that a drum has not, and does not wait for the indicator', () => {
    expect(tabsOf('before', drum).map((one) => one.name)).toEqual(['diameter', 'runout_outboard', 'scoring', 'bore']);
    expect(tabsOf('after', drum).map((one) => one.name)).toEqual(['diameter', 'runout_outboard', 'roughness']);
    expect(inside?.optional).toBe(true);
  });
});
