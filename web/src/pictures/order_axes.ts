/** What one wheel order beats at one true speed: a row of the shop's table. */
export interface OrderRow {
  speed_km_per_h: number;
  order: number;
  low_hz: number;
  hz: number;
  high_hz: number;
}

/** A pulsation as it was felt, at its true speed; a side of it may not be known yet. */
export interface FeltPoint {
  speed_km_per_h: number | null;
  hz: number | null;
  u_hz: number;
}

export interface OrderBand {
  order: number;
  rows: OrderRow[];
  /** Where its middle leaves the frame, for its label. */
  leaves: { speed_km_per_h: number; hz: number };
}

export interface OrderAxes {
  most_km_per_h: number;
  most_hz: number;
  bands: OrderBand[];
}

const LEAST_SPEED = 60;

/** The frame that holds the table's speeds and the point with air, and each order's band within it. */
export function orderAxes(table: readonly OrderRow[], felt: FeltPoint): OrderAxes {
  const fastest = Math.max(LEAST_SPEED, ...table.map((row) => row.speed_km_per_h));
  const most_km_per_h = Math.max(fastest, 1.15 * (felt.speed_km_per_h ?? 0));
  const once = table.filter((row) => row.order === 1).at(-1);
  const once_hz = once ? (once.hz / once.speed_km_per_h) * most_km_per_h : 10;
  const most_hz = Math.max(2.4 * once_hz, 1.35 * ((felt.hz ?? 0) + felt.u_hz));
  const orders = [...new Set(table.map((row) => row.order))].sort((a, b) => a - b);
  const bands = orders.map((order) => {
    const rows = table.filter((row) => row.order === order).sort((a, b) => a.speed_km_per_h - b.speed_km_per_h);
    return { order, rows, leaves: leavesAt(rows, most_km_per_h, most_hz) };
  });
  return { most_km_per_h, most_hz, bands };
}

function leavesAt(rows: readonly OrderRow[], most_km_per_h: number, most_hz: number) {
  const last = rows.at(-1);
  const slope = last ? last.hz / last.speed_km_per_h : 0;
  const at_edge = slope * most_km_per_h;
  return at_edge <= most_hz
    ? { speed_km_per_h: most_km_per_h, hz: at_edge }
    : { speed_km_per_h: most_hz / slope, hz: most_hz };
}

/** Rows of one band out to the frame's edge: an order keeps its number of beats to a turn at any speed. */
export function outTo(rows: readonly OrderRow[], speed_km_per_h: number): OrderRow | null {
  const last = rows.at(-1);
  if (!last) return null;
  const by = speed_km_per_h / last.speed_km_per_h;
  return { ...last, speed_km_per_h, low_hz: last.low_hz * by, hz: last.hz * by, high_hz: last.high_hz * by };
}
