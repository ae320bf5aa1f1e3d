import { describe, expect, it } from 'vitest';
import { draftFaults, draftOf, emptyDraft, jobOf, partsOf } from '../../web/src/arrival/draft';

let made = 0;
const id = () => `id-${++made}`;
const filled = () => ({
  ...emptyDraft(id, 'worker', 'lathe'),
  complaint: 'noise' as const,
  vehicle: ' grey estate ',
  brought_by: 'class 3',
});

describe('a job that comes in', () => {
  it('says what is still missing', () => {
    expect(draftFaults(emptyDraft(id, null, null))).toEqual(['complaint', 'vehicle', 'brought_by']);
    expect(draftFaults(filled())).toEqual([]);
  });
  it('reads an odometer with or without thousands marks and refuses what is no whole number', () => {
    for (const text of ['84200', '84 200', '84.200', '84,200', "84'200"]) {
      expect(jobOf({ ...filled(), odometer: text }).odometer, text).toBe(84200);
      expect(draftFaults({ ...filled(), odometer: text })).toEqual([]);
    }
    for (const text of ['84.2', '-5', '84k', '123456789']) {
      expect(draftFaults({ ...filled(), odometer: text }), text).toEqual(['odometer']);
    }
    expect(jobOf(filled()).odometer).toBeNull();
  });
  it('brings one part or both, under ids that do not change when it is sent again', () => {
    const draft = filled();
    expect(partsOf(draft).map((part) => [part.id, part.side])).toEqual([
      [draft.part_ids.left, 'left'],
      [draft.part_ids.right, 'right'],
    ]);
    expect(partsOf({ ...draft, sides: 'right' }).map((part) => part.side)).toEqual(['right']);
    expect(partsOf(draft)).toEqual(partsOf(draft));
  });
  it('comes back from the shop as it went', () => {
    const draft = { ...filled(), odometer: '84200', sides: 'left' as const };
    const file = { job: jobOf(draft), parts: partsOf(draft) };
    const back = draftOf(file as never);
    expect(jobOf(back)).toEqual(jobOf(draft));
    expect(back.sides).toBe('left');
  });
});
