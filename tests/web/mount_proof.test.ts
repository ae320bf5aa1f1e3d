import { describe, expect, it } from 'vitest';
import { checkList, mountedOf, ticked } from '../../web/src/mount/mounted';
import { adviceOf, costOf, type ProofFigures, swingOf } from '../../web/src/mount/proof_advice';

const figures = (runout_um: number, rest: Partial<ProofFigures> = {}): ProofFigures => ({
  runout_um,
  upper_bound: false,
  part_um: null,
  part_deg: null,
  mount_um: null,
  mount_deg: null,
  ...rest,
});

describe('what to do after a proof', () => {
  it('is to go on within the rule, its edge included', () => {
    expect(adviceOf(figures(50), 50)).toBe('go_on');
    expect(adviceOf(figures(20, { part_um: 5, mount_um: 18 }), 50)).toBe('go_on');
  });
  it('is to find out whose it is where nothing parts rotor and mount', () => {
    expect(adviceOf(figures(51), 50)).toBe('whose');
  });
  it('is to mount again where the mount is over the rule or has the larger share', () => {
    expect(adviceOf(figures(80, { part_um: 90, mount_um: 60 }), 50)).toBe('mount');
    expect(adviceOf(figures(70, { part_um: 30, mount_um: 45 }), 50)).toBe('mount');
  });
  it('is to let the cut take it off where it is the rotor’s own', () => {
    expect(adviceOf(figures(80, { part_um: 70, mount_um: 20 }), 50)).toBe('rotor');
  });
});

describe('what a mount costs', () => {
  it('is its own share, and all of the runout while whose it is cannot be told', () => {
    expect(costOf(figures(80, { part_um: 70, mount_um: 20 }))).toBe(20);
    expect(costOf(figures(80))).toBe(80);
  });
});

describe('a trace', () => {
  it('swings from its lowest to its highest', () => {
    expect(swingOf([0, 12, -7, 4])).toBe(19);
  });
});

describe('a part on the arbor, by the record', () => {
  const at = (minute: number) => `2026-03-01T10:${String(minute).padStart(2, '0')}:00.000Z`;
  const mount = (id: string, part_id: string, minute: number) => ({ id, part_id, at: at(minute) }) as never;
  const proof = (id: string, part_id: string, minute: number) => ({ id, part_id, at: at(minute) }) as never;
  it('is its last mount with the proofs since then', () => {
    const file = {
      mounts: [mount('m1', 'p', 1), mount('x', 'q', 2), mount('m2', 'p', 5)],
      mount_proofs: [proof('a', 'p', 3), proof('b', 'p', 6), proof('c', 'q', 7)],
    };
    expect(mountedOf(file, 'p')).toMatchObject({ mount: { id: 'm2' }, last: { id: 'b' } });
    expect(mountedOf(file, 'p').proofs).toHaveLength(1);
    expect(mountedOf(file, 'none')).toEqual({ mount: null, proofs: [], last: null });
  });
  it('has its check list anew with each mount, and what was unticked is no longer ticked', () => {
    const step = (name: string, event: string, minute: number, part_id = 'p', phase = 'mount') =>
      ({ step: name, event, received_at: at(minute), part_id, phase }) as never;
    const steps = [
      step('bore_clean', 'done', 1),
      step('faces_clean', 'done', 6),
      step('burrs_off', 'done', 6),
      step('burrs_off', 'undone', 7),
      step('nut_tight', 'done', 8, 'q'),
      step('pieces_wiped', 'done', 8, 'p', 'cut'),
    ];
    expect([...ticked(steps, 'p', at(5))]).toEqual(['faces_clean']);
  });
  it('is asked for its bore or for its races', () => {
    expect(checkList('hubless')).toContain('bore_clean');
    expect(checkList('integral_hub')).toContain('races_clean');
    for (const construction of ['hubless', 'integral_hub'] as const) expect(checkList(construction)).toHaveLength(5);
  });
});
