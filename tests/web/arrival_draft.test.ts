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
  it('reads speed, mass and frequency with comma or point, and refuses what is no number over nought', () => {
    const told = { ...filled(), felt_speed: '82,5', mass: '1 450', felt_frequency: '11.6' };
    expect(draftFaults(told)).toEqual(['vehicle_mass_kg']);
    const job = jobOf({ ...told, mass: '1450', felt_in: 'pedal', tyre: ' 205/55 R16 ' });
    expect(job).toMatchObject({
      felt_in: 'pedal',
      felt_speed_km_per_h: 82.5,
      felt_frequency_hz: 11.6,
      vehicle_mass_kg: 1450,
      tyre: '205/55 R16',
    });
    for (const text of ['fast', '-50', '0', '8o']) {
      expect(draftFaults({ ...filled(), felt_speed: text, felt_frequency: text }), text).toEqual([
        'felt_speed_km_per_h',
        'felt_frequency_hz',
      ]);
    }
    expect(jobOf(filled())).toMatchObject({ tyre: null, felt_in: null, felt_speed_km_per_h: null });
  });
  it('keeps miles an hour and pounds as they were told, and does not change what was stored', () => {
    const job = jobOf({ ...filled(), felt_speed: '50', speed_unit: 'mph', mass: '3200', mass_unit: 'lb' });
    expect(job.felt_speed_km_per_h).toBeCloseTo(80.4672, 9);
    expect(job.vehicle_mass_kg).toBeCloseTo(1451.495584, 6);
    const back = draftOf({ job, parts: partsOf(filled()) } as never);
    expect(back).toMatchObject({ felt_speed: '50', speed_unit: 'mph', mass: '3200', mass_unit: 'lb' });
    for (const stored of [80, 80.5, 80.4672, 81.123456, 0.1]) {
      const shown = draftOf({ job: { ...job, felt_speed_km_per_h: stored }, parts: [] } as never);
      expect(jobOf(shown).felt_speed_km_per_h).toBe(stored);
    }
  });
});
