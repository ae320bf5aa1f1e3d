import type { Side } from '../api/schema';

export interface Way {
  to: string;
  at: 'arrival' | 'measure' | 'limits' | 'rules' | 'car';
}

/** Where a figure that the road still needs is told; null where it is asked for on the spot. */
export function wayTo(field: string, number: number | undefined, side: Side): Way | null {
  const step = (name: string) => `/jobs/${number ?? ''}/${name}`;
  if (field.startsWith('job.')) return { to: step('arrival'), at: 'arrival' };
  if (field.startsWith('part.limits.')) return { to: step('limits'), at: 'limits' };
  if (field.startsWith('settings.')) return { to: '/shop/rules', at: 'rules' };
  if (field === 'readings.runout_outboard') return { to: step(`car?part=${side}`), at: 'car' };
  if (field === 'readings.cheek_outboard') return { to: step(`before?part=${side}&of=cheek`), at: 'measure' };
  if (field === 'readings.thickness_after') return { to: step(`after?part=${side}`), at: 'measure' };
  if (field.startsWith('readings.')) return { to: step(`before?part=${side}`), at: 'measure' };
  return null;
}

/** Which picture a missing figure is wanted for; the first that needs it. */
export type Picture = 'heat' | 'wear' | 'felt' | 'growth';

const WANTED_FOR: Record<string, Picture> = {
  'job.tyre': 'felt',
  'settings.wear_mm_per_10000_km': 'wear',
  'part.limits.discard': 'wear',
  'part.limits.runout': 'growth',
  'part.limits.variation': 'growth',
  'readings.runout_outboard': 'growth',
  'readings.thickness_after': 'growth',
};

export const wantedFor = (field: string): Picture => WANTED_FOR[field] ?? 'heat';
