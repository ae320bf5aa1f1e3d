import { describe, expect, it } from 'vitest';
import { type FieldConflict, mergeFields, sameJson, takeMine } from '../../web/src/conflict/merge';

const whole = (path: string) => path.startsWith('limits.');
const part = (vented: boolean, discard: string | null, machine_to: string | null, version = 1) => ({
  vented,
  limits: { discard: discard && { text: discard }, machine_to: machine_to && { text: machine_to } },
  version,
});

describe('two tablets that change one thing', () => {
  it('keeps both changes when they touch different fields', () => {
    const merge = mergeFields(part(true, null, null), part(true, '20', null, 2), part(true, null, '20.4'), whole);
    expect(merge.conflicts).toEqual([]);
    expect(merge.taken).toEqual(['limits.discard']);
    expect(merge.merged).toEqual(part(true, '20', '20.4', 2));
  });
  it('shows both values of a field that both changed and holds theirs meanwhile', () => {
    const merge = mergeFields(part(true, '20', null), part(true, '20.1', null, 2), part(false, '20.2', null), whole);
    expect(merge.conflicts).toEqual([
      { path: 'limits.discard', base: { text: '20' }, theirs: { text: '20.1' }, mine: { text: '20.2' } },
    ]);
    expect(merge.merged.limits.discard).toEqual({ text: '20.1' });
    expect(merge.merged.vented).toBe(false);
  });
  it('takes mine when asked to, and touches nothing else', () => {
    const merge = mergeFields(part(true, '20', '21'), part(true, '20.1', '21', 2), part(true, '20.2', '21'), whole);
    const settled = takeMine(merge.merged, merge.conflicts[0] as FieldConflict);
    expect(settled).toEqual(part(true, '20.2', '21', 2));
    expect(merge.merged.limits.discard).toEqual({ text: '20.1' });
  });
  it('sees no conflict where both wrote the same', () => {
    const merge = mergeFields(part(true, null, null), part(true, '20', null, 2), part(true, '20', null), whole);
    expect(merge.conflicts).toEqual([]);
  });
  it('reads an absent field and null as the same', () => {
    expect(sameJson({ a: null }, {})).toBe(true);
    expect(sameJson({ a: [1, 2] }, { a: [2, 1] })).toBe(false);
  });
});
