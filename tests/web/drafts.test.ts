import { describe, expect, it } from 'vitest';
import { dropDraft, keepDraft, readDraft } from '../../web/src/state/drafts';

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
});
