import { describe, expect, it } from 'vitest';
import { besideJob, kindOf, openingsOf, othersOf, vehicleOf } from '../../web/src/beside/vehicle';

type Kind = 'disc' | 'drum' | 'drum_in_hat';

const job = (number: number, rest: object = {}) => ({
  id: `job-${number}`,
  number,
  vehicle: 'grey estate',
  brought_by: 'class 3',
  complaint: 'pulsation',
  complaint_note: 'from 80',
  axle: 'front',
  odometer: 84_210,
  odometer_unit: 'km',
  tyre: '205/55 R16',
  vehicle_mass_kg: 1450,
  worker_person_id: 'ada',
  lathe_id: 'bench',
  ...rest,
});
const part = (side: string, kind?: Kind) => ({
  id: `part-${side}`,
  side,
  construction: 'integral_hub',
  vented: true,
  limits: {},
  ...(kind ? { kind } : {}),
});
const line = (of: object, kind?: Kind) => ({ job: of, parts: [part('left', kind)], waits_for: 'limits' }) as never;
const file = (of: object, parts = [part('left'), part('right')]) => ({ job: of, parts }) as never;
const ids = { job: 'new', left: 'l', right: 'r' };

describe('jobs of one vehicle', () => {
  it('know each other by its first job, whichever of them is looked at', () => {
    const first = job(1);
    const second = job(2, { beside_job_id: 'job-1', axle: 'rear' });
    const third = job(3, { beside_job_id: 'job-1' });
    const stranger = job(4, { axle: 'rear' });
    const lines = [line(stranger), line(third), line(second), line(first)];
    const numbers = (of: object) => othersOf(lines, of as never).map((one) => one.job.number);
    expect(vehicleOf(second as never)).toBe('job-1');
    expect(numbers(first)).toEqual([3, 2]);
    expect(numbers(second)).toEqual([1, 3]);
    expect(numbers(stranger)).toEqual([]);
  });
  it('may be opened for the other axle as discs or drums, and for the hats of discs', () => {
    const names = (of: object, others: never[] = []) => openingsOf(file(of), others).map((one) => [one.name, one.axle]);
    expect(names(job(1))).toEqual([
      ['other_disc', 'rear'],
      ['other_drum', 'rear'],
      ['hats', 'front'],
    ]);
    const rear = line(job(2, { beside_job_id: 'job-1', axle: 'rear' }), 'drum');
    expect(names(job(1), [rear])).toEqual([['hats', 'front']]);
    const hats = line(job(3, { beside_job_id: 'job-1' }), 'drum_in_hat');
    expect(names(job(1), [rear, hats])).toEqual([]);
    const of_drums = openingsOf(file(job(5), [part('left', 'drum')]), []);
    expect(of_drums.map((one) => one.name)).toEqual(['other_disc', 'other_drum']);
  });
  it('take over what is the vehicle’s own, and nothing of the parts', () => {
    const made = besideJob(file(job(1)), { name: 'other_drum', axle: 'rear', kind: 'drum' }, ids);
    expect(made.job).toMatchObject({
      id: 'new',
      beside_job_id: 'job-1',
      axle: 'rear',
      vehicle: 'grey estate',
      brought_by: 'class 3',
      complaint: 'pulsation',
      odometer: 84_210,
      tyre: '205/55 R16',
      vehicle_mass_kg: 1450,
    });
    expect(made.parts.map(({ id, side, kind, limits }) => [id, side, kind, limits])).toEqual([
      ['l', 'left', 'drum', {}],
      ['r', 'right', 'drum', {}],
    ]);
  });
  it('name the first job of the vehicle even when opened from a later one', () => {
    const later = file(job(2, { beside_job_id: 'job-1', axle: 'rear' }));
    expect(besideJob(later, { name: 'other_disc', axle: 'front', kind: 'disc' }, ids).job.beside_job_id).toBe('job-1');
  });
  it('have in the hats as many drums as there are discs, of their construction', () => {
    const one_side = file(job(1), [part('right')]);
    const made = besideJob(one_side, { name: 'hats', axle: 'front', kind: 'drum_in_hat' }, ids);
    expect(made.parts).toMatchObject([{ id: 'r', side: 'right', kind: 'drum_in_hat', construction: 'integral_hub' }]);
    expect(kindOf(made.parts)).toBe('drum_in_hat');
    expect(kindOf([part('left')] as never)).toBe('disc');
  });
});
