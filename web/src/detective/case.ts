import type { PulsationAdvice } from '../api/schema';
import type { FeltPoint } from '../pictures/order_axes';

/** How far the case is: nothing fits yet, one rhythm fits, several do, or none of the wheel's. */
export type Standing = 'unknown' | 'sure' | 'unsure' | 'none';

/** From here on one rhythm is called the one: the same as the shop's own next steps hold to. */
const SURE = 0.8;

export function standingOf({ orders }: Pick<PulsationAdvice, 'orders'>): Standing {
  const [best] = orders;
  if (!best) return 'unknown';
  if (best.order === 0) return 'none';
  return best.probability >= SURE ? 'sure' : 'unsure';
}

/** The order that is drawn full: the most probable one of the wheel's, where it comes first. */
export const litOrder = ({ orders }: Pick<PulsationAdvice, 'orders'>): number | null =>
  orders[0] && orders[0].order > 0 ? orders[0].order : null;

const S_PER_H = 3600;
const M_PER_KM = 1000;

/**
 * The complaint as a point at its true speed. What the first order should beat there tells that speed, since the shop
 * corrects what a speedometer shows; without it the speed stands as it was told.
 */
export function feltPoint(advice: PulsationAdvice): FeltPoint {
  const once = advice.orders.find((fit) => fit.order === 1)?.expected_hz ?? null;
  const true_speed = once !== null && advice.wheel ? (once * advice.wheel.circumference_m * S_PER_H) / M_PER_KM : null;
  return {
    speed_km_per_h: true_speed ?? advice.felt_speed_km_per_h,
    hz: advice.felt_frequency_hz,
    u_hz: advice.u_frequency_hz ?? 0,
  };
}

/** Where a missing figure is typed. */
export function placeFor(field: string, number: number | undefined): { to: string; at: 'arrival' | 'measure' } {
  const at = field.startsWith('readings') ? 'measure' : 'arrival';
  return { to: `/jobs/${number ?? ''}/${at === 'measure' ? 'before' : 'arrival'}`, at };
}
