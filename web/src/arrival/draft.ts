import type { FeltIn, Job, JobFile, Part } from '../api/schema';
import { kindOf } from '../show/part_kind';
import type { PartKind } from '../words';
import { kilograms, kmPerHour, type MassUnit, type SpeedUnit, toldMass, toldSpeed, typedNumber } from './measures';

/** What is asked of a job that comes in, as it is half typed. */
export interface ArrivalDraft {
  job_id: string;
  part_ids: { left: string; right: string };
  complaint: Job['complaint'] | '';
  complaint_note: string;
  vehicle: string;
  odometer: string;
  odometer_unit: 'km' | 'mi';
  tyre: string;
  mass: string;
  mass_unit: MassUnit;
  felt_in: FeltIn | '';
  felt_speed: string;
  speed_unit: SpeedUnit;
  felt_frequency: string;
  brought_by: string;
  axle: Job['axle'];
  sides: 'both' | 'left' | 'right';
  kind: PartKind;
  construction: Part['construction'];
  vented: boolean;
  worker_person_id: string | null;
  lathe_id: string | null;
}

export function emptyDraft(newId: () => string, worker: string | null, lathe: string | null): ArrivalDraft {
  return {
    job_id: newId(),
    part_ids: { left: newId(), right: newId() },
    complaint: '',
    complaint_note: '',
    vehicle: '',
    odometer: '',
    odometer_unit: 'km',
    tyre: '',
    mass: '',
    mass_unit: 'kg',
    felt_in: '',
    felt_speed: '',
    speed_unit: 'km/h',
    felt_frequency: '',
    brought_by: '',
    axle: 'front',
    sides: 'both',
    kind: 'disc',
    construction: 'hubless',
    vented: true,
    worker_person_id: worker,
    lathe_id: lathe,
  };
}

export function draftOf({ job, parts }: JobFile): ArrivalDraft {
  const [first, second] = parts;
  const speed = toldSpeed(job.felt_speed_km_per_h);
  const mass = toldMass(job.vehicle_mass_kg);
  return {
    job_id: job.id,
    part_ids: {
      left: parts.find((part) => part.side === 'left')?.id ?? '',
      right: parts.find((part) => part.side === 'right')?.id ?? '',
    },
    complaint: job.complaint,
    complaint_note: job.complaint_note,
    vehicle: job.vehicle,
    odometer: job.odometer == null ? '' : String(job.odometer),
    odometer_unit: job.odometer_unit,
    tyre: job.tyre ?? '',
    mass: mass?.text ?? '',
    mass_unit: mass?.unit ?? (job.odometer_unit === 'mi' ? 'lb' : 'kg'),
    felt_in: job.felt_in ?? '',
    felt_speed: speed?.text ?? '',
    speed_unit: speed?.unit ?? (job.odometer_unit === 'mi' ? 'mph' : 'km/h'),
    felt_frequency: job.felt_frequency_hz == null ? '' : String(job.felt_frequency_hz),
    brought_by: job.brought_by,
    axle: job.axle,
    sides: second ? 'both' : (first?.side ?? 'left'),
    kind: kindOf(first),
    construction: first?.construction ?? 'hubless',
    vented: first?.vented ?? true,
    worker_person_id: job.worker_person_id ?? null,
    lathe_id: job.lathe_id ?? null,
  };
}

/** What is still missing or cannot be so, by field; empty when the job can be opened. */
export type DraftFault =
  | 'complaint'
  | 'vehicle'
  | 'brought_by'
  | 'odometer'
  | 'vehicle_mass_kg'
  | 'felt_speed_km_per_h'
  | 'felt_frequency_hz';

const ODOMETER = /^[0-9]{1,7}$/;

/** Thousands may be set off by a space, a point, a comma or an apostrophe. */
const odometerDigits = (text: string) => text.trim().replace(/([0-9])[\s.,'’](?=[0-9]{3}(?![0-9]))/g, '$1');

export function draftFaults(draft: ArrivalDraft): DraftFault[] {
  const faults: DraftFault[] = [];
  if (draft.complaint === '') faults.push('complaint');
  if (draft.vehicle.trim() === '') faults.push('vehicle');
  if (draft.odometer.trim() !== '' && !ODOMETER.test(odometerDigits(draft.odometer))) faults.push('odometer');
  if (typedNumber(draft.mass) === 'wrong') faults.push('vehicle_mass_kg');
  if (typedNumber(draft.felt_speed) === 'wrong') faults.push('felt_speed_km_per_h');
  if (typedNumber(draft.felt_frequency) === 'wrong') faults.push('felt_frequency_hz');
  if (draft.brought_by.trim() === '') faults.push('brought_by');
  return faults;
}

const value = (text: string, of: (given: number) => number): number | null => {
  const typed = typedNumber(text);
  return typeof typed === 'number' ? of(typed) : null;
};

/** Whether anything is told of what is felt on the road. */
export const tellsFelt = (draft: ArrivalDraft) =>
  draft.felt_in !== '' || draft.felt_speed.trim() !== '' || draft.felt_frequency.trim() !== '';

/** The job's own fields as drafted. @throws nothing: call it when `draftFaults` is empty. */
export function jobOf(draft: ArrivalDraft): Job {
  return {
    id: draft.job_id,
    brought_by: draft.brought_by.trim(),
    vehicle: draft.vehicle.trim(),
    complaint: draft.complaint === '' ? 'inspection' : draft.complaint,
    complaint_note: draft.complaint_note.trim(),
    axle: draft.axle,
    odometer: draft.odometer.trim() === '' ? null : Number(odometerDigits(draft.odometer)),
    odometer_unit: draft.odometer_unit,
    tyre: draft.tyre.trim() === '' ? null : draft.tyre.trim(),
    vehicle_mass_kg: value(draft.mass, (given) => kilograms(given, draft.mass_unit)),
    felt_in: draft.felt_in === '' ? null : draft.felt_in,
    felt_speed_km_per_h: value(draft.felt_speed, (given) => kmPerHour(given, draft.speed_unit)),
    felt_frequency_hz: value(draft.felt_frequency, (given) => given),
    worker_person_id: draft.worker_person_id,
    lathe_id: draft.lathe_id,
  };
}

export function partsOf(draft: ArrivalDraft): Part[] {
  const sides = draft.sides === 'both' ? (['left', 'right'] as const) : [draft.sides];
  return sides.map((side) => ({
    id: draft.part_ids[side],
    side,
    ...(draft.kind === 'disc' ? {} : { kind: draft.kind }),
    construction: draft.construction,
    vented: draft.kind === 'disc' && draft.vented,
    limits: {},
  }));
}
