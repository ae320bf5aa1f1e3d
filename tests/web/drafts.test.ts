import { describe, expect, it } from 'vitest';
import { draftsOf, dropDraft, keepDraft, readDraft } from '../../web/src/state/drafts';

const shelf = () => {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  };
};

describe('drafts', () => {
  it('come back as they were left, with fields that are new since', () => {
    const store = shelf();
    keepDraft(store, 'arrival', { vehicle: 'grey estate' });
    expect(readDraft(store, 'arrival', { vehicle: '', axle: 'front' })).toEqual({
      vehicle: 'grey estate',
      axle: 'front',
    });
    dropDraft(store, 'arrival');
    expect(readDraft(store, 'arrival', { vehicle: '' })).toEqual({ vehicle: '' });
  });
  it('of something that stands already begin anew once that is another', () => {
    const store = shelf();
    const [first, second] = [JSON.stringify({ name: 'brakes' }), JSON.stringify({ name: 'brakes, Tuesday' })];
    keepDraft(store, 'class', { name: 'half typed' }, first);
    expect(readDraft(store, 'class', { name: 'brakes' }, first)).toEqual({ name: 'half typed' });
    expect(readDraft(store, 'class', { name: 'brakes, Tuesday' }, second)).toEqual({ name: 'brakes, Tuesday' });
    keepDraft(store, 'class', { name: 'new one' });
    expect(readDraft(store, 'class', { name: '' })).toEqual({ name: 'new one' });
    expect(readDraft(store, 'class', { name: 'brakes' }, first)).toEqual({ name: 'brakes' });
  });
  it('that are damaged count as none', () => {
    const store = shelf();
    store.setItem('brakewright.draft.arrival', '{half');
    expect(readDraft(store, 'arrival', { vehicle: '' })).toEqual({ vehicle: '' });
  });
  it('cost nothing but themselves when the storage is full', () => {
    const full = {
      ...shelf(),
      setItem: () => {
        throw new Error('full');
      },
    };
    expect(() => keepDraft(full, 'arrival', {})).not.toThrow();
  });

  it('are read by the person who typed them, and by nobody else', () => {
    const store = shelf();
    let here = 'bo';
    draftsOf(() => here);
    keepDraft(store, 'arrival', { vehicle: 'of Bo' });
    here = 'cy';
    expect(readDraft(store, 'arrival', { vehicle: '' })).toEqual({ vehicle: '' });
    keepDraft(store, 'arrival', { vehicle: 'of Cy' });
    dropDraft(store, 'arrival');
    here = 'bo';
    expect(readDraft(store, 'arrival', { vehicle: '' })).toEqual({ vehicle: 'of Bo' });
    draftsOf(() => '');
  });
});
