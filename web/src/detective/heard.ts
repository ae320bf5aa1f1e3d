import type { CalcPulsationOutput } from '../api/schema';

/** Where one wheel order should be at the speed of a recording. */
export interface Zone {
  order: number;
  low_hz: number;
  high_hz: number;
}

type Answer = Pick<CalcPulsationOutput, 'orders' | 'table'>;

/** Standard uncertainty of a speedometer's speed, as the shop counts with: from memory, no source read. */
const U_SPEED = 0.02;
const HIGHEST_ORDER = 4;

/**
 * Zones of the orders at the true speed, from what the shop expected there; as wide as tyre and speed leave it open.
 * Empty where the tyre is not known.
 */
export function zonesOf({ orders, table }: Answer): Zone[] {
  return orders
    .filter((fit) => fit.order >= 1 && fit.order <= HIGHEST_ORDER && fit.expected_hz !== null)
    .sort((a, b) => a.order - b.order)
    .flatMap((fit) => {
      const row = table.find((one) => one.order === fit.order);
      const hz = fit.expected_hz ?? 0;
      if (!row) return [];
      const low_hz = hz * (row.low_hz / row.hz) * (1 - 2 * U_SPEED);
      return [{ order: fit.order, low_hz, high_hz: hz * (row.high_hz / row.hz) * (1 + 2 * U_SPEED) }];
    });
}

/** The order whose zone a line lies in. */
export const orderAt = (hz: number, zones: readonly Zone[]): number | null =>
  zones.find((zone) => hz >= zone.low_hz && hz <= zone.high_hz)?.order ?? null;
