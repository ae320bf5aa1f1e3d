import type { FeltIn, Job } from '../api/schema';
import { personName, shop } from '../state/shop';
import { words } from '../words';

/** A job's own fields in words, for where two people changed one of them. */
export const nameOfField = (path: string): string => words.arrival.field[path] ?? path;

export function showField(path: string, value: unknown): string {
  if (value === null || value === '') return words.conflict.empty;
  if (path === 'worker_person_id') return personName(String(value));
  if (path === 'lathe_id') return shop.value?.lathes.find((one) => one.id === value)?.name ?? '';
  if (path === 'complaint') return words.trade.complaint[value as Job['complaint']];
  if (path === 'felt_in') return words.trade.feltIn[value as FeltIn];
  if (path === 'felt_speed_km_per_h') return `${value} km/h`;
  if (path === 'vehicle_mass_kg') return `${value} kg`;
  return String(value);
}
