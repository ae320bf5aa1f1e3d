import type { Job, JobFile, JobLine, Part, PartKind } from '../api/schema';

/** All jobs of a vehicle name its first one, which names none. */
export const vehicleOf = (job: Pick<Job, 'id' | 'beside_job_id'>): string => job.beside_job_id ?? job.id;

export const kindOf = (parts: readonly Pick<Part, 'kind'>[]): PartKind => parts[0]?.kind ?? 'disc';

/** The other lines of the same vehicle, front axle first, then by number. */
export function othersOf(lines: readonly JobLine[], job: Job): JobLine[] {
  const mine = vehicleOf(job);
  return lines
    .filter((line) => line.job.id !== job.id && vehicleOf(line.job) === mine)
    .sort((a, b) => a.job.axle.localeCompare(b.job.axle) || (a.job.number ?? 0) - (b.job.number ?? 0));
}

/** Which jobs may be opened beside one: of its other axle, and what sits in the hats of its discs. */
export interface Opening {
  name: 'other_disc' | 'other_drum' | 'hats';
  axle: Job['axle'];
  kind: PartKind;
}

/** Those that are not open or sealed already. */
export function openingsOf(file: JobFile, others: readonly JobLine[]): Opening[] {
  const { axle } = file.job;
  const other = axle === 'front' ? 'rear' : 'front';
  const there = (wanted: Job['axle'], kinds: readonly PartKind[]) =>
    others.some((line) => line.job.axle === wanted && kinds.includes(kindOf(line.parts)));
  const openings: Opening[] = [];
  if (!there(other, ['disc', 'drum'])) {
    openings.push({ name: 'other_disc', axle: other, kind: 'disc' });
    openings.push({ name: 'other_drum', axle: other, kind: 'drum' });
  }
  if (kindOf(file.parts) === 'disc' && !there(axle, ['drum_in_hat'])) {
    openings.push({ name: 'hats', axle, kind: 'drum_in_hat' });
  }
  return openings;
}

/** The job to be opened, with what is the vehicle's own copied; its parts are told apart by side alone. */
export function besideJob(
  file: JobFile,
  { axle, kind }: Opening,
  ids: { job: string; left: string; right: string },
): { job: Job; parts: Part[] } {
  const { job, parts } = file;
  const job_made: Job = {
    id: ids.job,
    beside_job_id: vehicleOf(job),
    brought_by: job.brought_by,
    vehicle: job.vehicle,
    complaint: job.complaint,
    complaint_note: job.complaint_note,
    axle,
    odometer: job.odometer ?? null,
    odometer_unit: job.odometer_unit,
    tyre: job.tyre ?? null,
    vehicle_mass_kg: job.vehicle_mass_kg ?? null,
    felt_in: job.felt_in ?? null,
    felt_speed_km_per_h: job.felt_speed_km_per_h ?? null,
    felt_frequency_hz: job.felt_frequency_hz ?? null,
    worker_person_id: job.worker_person_id ?? null,
    lathe_id: job.lathe_id ?? null,
  };
  const in_hat = kind === 'drum_in_hat';
  const sides = in_hat ? parts.map((part) => part.side) : (['left', 'right'] as const);
  return {
    job: job_made,
    parts: sides.map((side) => ({
      id: ids[side],
      side,
      construction: in_hat ? (parts[0]?.construction ?? 'hubless') : 'hubless',
      vented: false,
      limits: {},
      ...(kind === 'disc' ? {} : { kind }),
    })),
  };
}
