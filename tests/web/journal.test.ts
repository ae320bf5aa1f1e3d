import { describe, expect, it } from 'vitest';
import { journalEntries } from '../../web/src/record/journal';

const change = (seq: number, subject_id: string, kind: string, detail: Record<string, unknown>) => ({
  seq,
  id: `c${seq}`,
  kind,
  job_id: 'j',
  subject_id,
  detail: detail as Record<string, never>,
  by_person_id: 'p',
  at: '2026-03-04T09:15:00.000Z',
});

describe('the journal of a job', () => {
  it('shows old and new of each field that an entry changed', () => {
    const entries = journalEntries([
      change(1, 'part', 'part.added', {
        vented: true,
        limits: { discard: { value: { text: '20' }, source: 'unknown' } },
      }),
      change(2, 'other', 'reading.added', { text: '21' }),
      change(3, 'part', 'part.changed', {
        vented: false,
        version: 2,
        limits: { discard: { value: { text: '20.4' }, source: 'cast_on_part' } },
      }),
    ]);
    expect(entries[0]?.first).toBe(true);
    expect(entries[2]?.first).toBe(false);
    expect(entries[2]?.fields).toEqual([
      { path: 'vented', old: true, new: false },
      {
        path: 'limits.discard',
        old: { value: { text: '20' }, source: 'unknown' },
        new: { value: { text: '20.4' }, source: 'cast_on_part' },
      },
    ]);
  });
  it('shows all that a thing has when it is first spoken of as changed', () => {
    const [entry] = journalEntries([change(1, 'part', 'part.changed', { vented: true, version: 2 })]);
    expect(entry?.fields).toEqual([{ path: 'vented', old: null, new: true }]);
  });
});
