import type { Json } from './shop';

/** A good input for each computation. */
export const examples: Record<string, Json> = {
  length: { text: '836 thou', default_unit: 'mm' },
  circle: { angles_deg: [0, 45, 90, 135, 180, 225, 270, 315], values_um: [12, 9, 3, -2, -6, -4, 1, 8], max_order: 2 },
  budget: {
    components: [
      { name: 'gauge', u: 0.002, sensitivity: 1, dof: 9, distribution: 'normal', value: 21.2 },
      { name: 'zero', half_width: 0.001, sensitivity: 1, distribution: 'rectangular', value: 0 },
    ],
    confidence: 0.95,
  },
  conformity: { value: 20.75, u: 0.02, lower: 20.6, upper: null, confidence: 0.95 },
  anova: {
    groups: [
      [1, 2, 3],
      [2, 3, 4],
      [5, 6, 7],
    ],
  },
  thickness: {
    readings: Array.from({ length: 8 }, (_, k) => ({
      angle_deg: 45 * k,
      radius_mm: 120,
      values_mm: [Number((21.2 + 0.01 * Math.cos((k * Math.PI) / 4)).toFixed(3))],
    })),
    micrometer: { resolution_mm: 0.001, mpe_mm: 0.004, repeatability_mm: 0.002, zero_error_mm: 0 },
    part_temperature_c: 20,
    variation_limit_mm: 0.015,
    discard_mm: 20,
    machine_to_mm: 20.6,
    seed: 1,
  },
  cleanup: {
    thickness_mm: [21.2, 21.21, 21.2, 21.19],
    outboard_um: [10, 0, -10, 0],
    angles_deg: [0, 90, 180, 270],
    score_outboard_um: 20,
    score_inboard_um: 10,
    margin_um: 10,
    dial_um_per_mark: 25.4,
    machine_to_mm: 20.6,
    discard_mm: 20,
  },
  separate: {
    positions: [
      { turn_deg: 0, angles_deg: [0, 90, 180, 270], values_um: [30, 10, -30, -10] },
      { turn_deg: 180, angles_deg: [0, 90, 180, 270], values_um: [10, 10, -10, -10] },
    ],
    max_order: 1,
  },
  scratch: { marks: [{ centre_deg: 40, arc_deg: 120, infeed_um: 25 }] },
  mount: {
    arbor: { diameter_mm: 25.4, thread_start_mm: 30, tip_mm: 120, nut_engagement_mm: 15 },
    part: {
      kind: 'hubless',
      bore_mm: 65,
      flange_mm: 8,
      flat_inner_mm: 75,
      flat_outer_mm: 140,
      flat_inner_inboard_mm: 75,
      flat_outer_inboard_mm: 140,
    },
    pieces: [],
    count: 3,
  },
};
