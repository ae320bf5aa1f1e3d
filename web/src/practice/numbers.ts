import type { HowShown } from '../show/length';
import { shop } from '../state/shop';

/** A length as the gauge at hand shows it, in the shop's unit. */
export const howOf = (resolution_mm: number): HowShown => ({
  unit: shop.value?.settings.default_unit ?? 'mm',
  resolution_nm: Math.round(resolution_mm * 1e6),
});

/** Micrometres without a tail: "12", under ten "3.4"; a true minus. */
export function micrometres(um: number): string {
  const text = Math.abs(um) < 9.95 ? Math.abs(um).toFixed(1) : Math.abs(um).toFixed(0);
  return um < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/** A radius or an angle to the whole, for places that a finger chose. */
export const whole = (value: number): string => String(Math.round(value)).replace('-', '−');

/** The bench's own time: "3 min 20 s", with hours where there are some. */
export function benchTime(seconds: number): { hours: number; minutes: number; seconds: number } {
  const all = Math.max(0, Math.round(seconds));
  return { hours: Math.floor(all / 3600), minutes: Math.floor((all % 3600) / 60), seconds: all % 60 };
}

/** Within a turn, 0 up to 360. */
export const inTurn = (deg: number): number => ((deg % 360) + 360) % 360;

export const clamped = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
