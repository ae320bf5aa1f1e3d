import type { Json } from './shop';

const round = (mean_mm: number, amplitude_mm: number) =>
  Array.from({ length: 8 }, (_, k) => ({
    angle_deg: 45 * k,
    radius_mm: 120,
    values_mm: [Number((mean_mm + amplitude_mm * Math.cos((k * Math.PI) / 4)).toFixed(3))],
  }));

const micrometer = { resolution_mm: 0.001, mpe_mm: 0.004, repeatability_mm: 0.002, zero_error_mm: 0 };

/** A tap as a WAV of 8 bits: a strike after a fifth of a second, and what it leaves. */
const tap = () => {
  const rate = 8000;
  const count = 12_000;
  const wav = Buffer.alloc(44 + count, 128);
  wav.write('RIFF....WAVEfmt ', 0, 'latin1');
  wav.writeUInt32LE(16, 16);
  wav.writeUInt32LE(0x10001, 20);
  wav.writeUInt32LE(rate, 24);
  wav.writeUInt32LE(rate, 28);
  wav.writeUInt32LE(0x80001, 32);
  wav.write('data', 36, 'latin1');
  wav.writeUInt32LE(count, 40);
  for (let i = 1600; i < count; i++) {
    const t = (i - 1600) / rate;
    wav[44 + i] = 128 + Math.round(100 * Math.exp(-12 * t) * Math.cos(2 * Math.PI * 980 * t));
  }
  return wav.toString('base64');
};

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
  'gauge-plan': { parts: ['a', 'b', 3], operators: ['Ann', 'Ben'], repeats: 3, seed: 4 },
  'gauge-study': {
    rows: [21.2, 21.4, 21.5].flatMap((thickness_mm, part) =>
      ['Ann', 'Ben'].flatMap((operator, who) =>
        [0, 1, 2, 3].map((k) => ({
          part: part + 1,
          operator,
          instrument: k % 2 === 0 ? 'first' : 'second',
          value: Number((thickness_mm + 0.003 * who + 0.001 * ((k * 7 + part * 3 + who) % 5)).toFixed(3)),
        })),
      ),
    ),
    tolerance: 0.5,
    alpha_pool: 0.25,
    references: [{ part: 2, value: 21.4, u: 0.001 }],
    u_instrument: 0.001,
    seed: 3,
    draws: 2000,
  },
  thickness: {
    readings: round(21.2, 0.01),
    micrometer,
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
    dial_inboard_um_per_mark: 20,
    machine_to_mm: 20.6,
    discard_mm: 20,
  },
  'after-cut': {
    before: round(21.5, 0.02),
    after: round(21.2, 0.001),
    micrometer_before: micrometer,
    outboard_marks: 6,
    inboard_marks: 6,
    dial_um_per_mark: 25.4,
    dial_inboard_um_per_mark: 20,
    planned_final_mm: 21.19,
    ra_um: 1.8,
    limits: { machine_to: { value_mm: 20.6, source: 'service information' }, finish: { value_um: 2.5 } },
  },
  roughness: {
    spacing_um: 5,
    z_um: Array.from({ length: 1000 }, (_, i) =>
      Number((6 * (((i % 32) - 16) / 32) ** 2 + ((i * 7) % 5) / 20).toFixed(3)),
    ),
    cutoff_mm: 0.8,
    short_cutoff_um: null,
    filter: 'gaussian',
    discard_ends_mm: 0.4,
    columns: 40,
  },
  runout: { angles_deg: [0, 60, 120, 180, 240, 300], values_um: [30, 20, 2, -4, 3, 18], limit_um: 50 },
  verdict: {
    parts: [
      {
        name: 'left',
        limits: {
          machine_to: { value_mm: 20.6, source: 'service information' },
          discard: { value_mm: 20, source: 'cast on part' },
          variation: { value_mm: 0.015, source: 'service information' },
        },
        readings: round(21.5, 0.02),
        micrometer,
        arbor_runout: {
          outboard: { angles_deg: [0, 90, 180, 270], values_um: [20, 0, -20, 0] },
          indicator: { resolution_um: 10, repeatability_um: 3 },
        },
        scoring: { outboard_um: 30, inboard_um: 20 },
      },
    ],
    complaint: 'pulsation',
    lathe: { dial_um_per_mark: 25.4, dial_inboard_um_per_mark: 20 },
    seed: 7,
  },
  cutplan: {
    ring: { outer_radius_mm: 140, inner_radius_mm: 85, approach_mm: 3 },
    needed_um: { outboard: 150, inboard: 120 },
    start_min_mm: 21.48,
    machine_to_mm: 20.6,
    lathe: { speeds_rpm: [100, 150, 200], feeds_mm_per_rev: [0.05, 0.1, 0.15], dial_um_per_mark: 25.4 },
    insert: { nose_radius_mm: 0.8, max_speed_m_per_min: 150 },
    rules: { rough_max_um: 250, finish_min_um: 50, finish_max_um: 130, ra_target_um: 1.6, ra_factor: 1.5 },
  },
  dialcheck: {
    outboard: { marks: 6, dial_um_per_mark: 25.4, touch_loss_um: 20, u_touch_loss_um: 3, touched_all: true },
    inboard: {
      marks: 6,
      dial_um_per_mark: 25.4,
      touch_loss_um: 20,
      u_touch_loss_um: 3,
      removed_um: 110,
      u_removed_um: 5,
    },
    dial_sd_um: 2.5,
    settings: 2,
    removed_sum_um: 240,
    u_removed_sum_um: 2,
    temperature_rise_k: 10,
    thickness_mm: 21.5,
  },
  dialstudy: {
    dial_um_per_mark: 25.4,
    jobs: [4, 8, 6, 10, 5, 12].map((marks, k) => ({
      outboard_marks: marks,
      inboard_marks: 14 - marks,
      settings: 2,
      depth_um: Number((25.2 * marks + 25.6 * (14 - marks) + 3 * (-1) ** k).toFixed(1)),
      u_depth_um: 3,
      days: 7 * k,
    })),
  },
  foresee: {
    ring: { outer_radius_mm: 140, inner_radius_mm: 85, approach_mm: 3 },
    start_min_mm: 21.48,
    u_start_min_um: 3,
    machine_to_mm: 20.6,
    discard_mm: 20,
    lathe: { dial_um_per_mark: 25.4, dial_sd_um: 2.5, speeds_rpm: [100, 150] },
    insert: { nose_radius_mm: 0.8, max_speed_m_per_min: 150 },
    rules: { rough_max_um: 250, finish_min_um: 50, finish_max_um: 130, ra_target_um: 1.6, ra_factor: 1.5 },
    passes: [
      { outboard_marks: 4, inboard_marks: 3, rpm: 150, feed_mm_per_rev: 0.15 },
      { outboard_marks: 2, inboard_marks: 2, rpm: 150, feed_mm_per_rev: 0.1 },
    ],
  },
  finish: { feed_mm_per_rev: 0.1, nose_radius_mm: 0.8 },
  force: { depth_mm: 0.1, feed_mm_per_rev: 0.1, nose_radius_mm: 0.8, surface_speed_m_per_min: 120 },
  separate: {
    positions: [0, 180].map((turn_deg) => ({
      turn_deg,
      angles_deg: [0, 60, 120, 180, 240, 300],
      values_um: turn_deg === 0 ? [42, 30, -8, -40, -31, 9] : [18, -2, -21, -19, 1, 22],
    })),
    max_order: 2,
    noise_sd_um: 1.5,
    studs: 5,
  },
  index: {
    hub: [
      { order: 1, amplitude_um: 30, phase_deg: 40, u_amplitude_um: 2 },
      { order: 2, amplitude_um: 4, phase_deg: 10 },
    ],
    part: [{ order: 1, amplitude_um: 25, phase_deg: 190, u_amplitude_um: 2 }],
    positions: 5,
    radius_mm: 130,
    plates: [{ id: 'plate 1', taper_um: 25, diameter_mm: 150 }],
    limit_um: 25,
    u_um: 1,
    refit_u_um: 2,
    seed: 3,
    draws: 500,
  },
  heat: {
    t_stop_s: 4,
    vehicle: {
      mass_kg: 1400,
      speed_km_per_h: 100,
      front_share: 0.7,
      disc: { outer_radius_mm: 140, inner_radius_mm: 85, thickness_mm: 22, cheek_thickness_mm: 7 },
    },
    before: { thickness_mm: 22 },
    after: { thickness_mm: 21.2 },
    repeats: { stops: 5, interval_s: 60 },
  },
  pulsation: {
    tyre: '205/55 R16',
    observations: [
      { speed_km_per_h: 90, count: 128, count_s: 10 },
      { speed_km_per_h: 60, frequency_hz: 8.4, u_frequency_hz: 0.3 },
    ],
    felt: 'wheel',
    corners: [
      { name: 'front left', axle: 'front', variation: [{ order: 1, amplitude_um: 12 }], runout_um: 70 },
      { name: 'front right', axle: 'front', variation: [{ order: 1, amplitude_um: 2 }], blind_orders: [2, 4] },
      { name: 'rear left', axle: 'rear' },
    ],
    growth: { runout_um: 120, runout_limit_um: 50 },
    wear: { thickness_mm: 21.2, u_mm: 0.004, discard_mm: 20, mm_per_unit: 0.15 },
  },
  drum: {
    parts: ['left', 'right'].map((name, part) => ({
      name,
      limits: {
        nominal: { value_mm: 283.21, source: 'service information' },
        machine_to: { value_mm: 284.734, source: 'service information' },
        discard: { value_mm: 285.496, source: 'cast on part' },
        out_of_round: { value_mm: 0.15, source: 'service information' },
      },
      readings: [5, 45].flatMap((depth_mm) =>
        [0, 45, 90, 135].map((angle_deg, k) => ({
          depth_mm,
          angle_deg,
          values_mm: [Number((283.6 + 0.1 * part + 0.12 * Math.cos((k * Math.PI) / 2)).toFixed(2))],
        })),
      ),
      gauge: { resolution_mm: 0.01, mpe_mm: 0.02, repeatability_mm: 0.005 },
      scoring: { depth_um: 60, u_um: 10 },
    })),
    shoe: { lining_radius_mm: 141.6 },
    plan: {
      width_mm: 55,
      lathe: { speeds_rpm: [60, 100], feeds_mm_per_rev: [0.05, 0.1, 0.2] },
      insert: { nose_radius_mm: 0.8, max_speed_m_per_min: 150 },
      rules: { ra_target_um: 2 },
    },
    cuts: [
      {
        readings: [5, 45].flatMap((depth_mm) =>
          [0, 45, 90, 135].map((angle_deg) => ({ depth_mm, angle_deg, values_mm: [284.02] })),
        ),
        marks: 9,
        ra_um: 1.6,
      },
    ],
    draws: 2000,
    seed: 5,
  },
  lobes: {
    k_n_per_m: 1.2e7,
    zeta: 0.006,
    fn_hz: 520,
    kf_n_per_m2: 1.5e9,
    rpm: [60, 100, 150, 9000],
    u_relative: { k: 0.1, zeta: 0.2, kf: 0.2 },
    zeta_factor: 3,
  },
  'disc-modes': {
    outer_mm: 140,
    inner_mm: 70,
    thickness_mm: 12,
    e_gpa: 110,
    nu: 0.26,
    density_kg_m3: 7200,
    max_diameters: 4,
    inner_edge: 'free',
    hat: true,
    recording_wav_base64: tap(),
    marks: { spacing_mm: 1.5, u_spacing_mm: 0.1, radius_mm: 120, rpm: 120 },
  },
  stability: {
    mass_kg: 0.03993,
    zeta: 0.011,
    fn_hz: 922,
    rpm: 5000,
    depth_mm: 0.5,
    intervals: 40,
    teeth: 2,
    kt_n_per_m2: 6e8,
    kn_n_per_m2: 2e8,
    radial_ratio: 1,
    direction: 'down',
  },
  'twin-limit': {
    k_tool: 3e7,
    zeta_tool: 0.04,
    fn_tool_hz: 300,
    k_disc: 1.2e7,
    zeta_disc: 0.006,
    fn_disc_hz: 520,
    kf_n_per_m2: 1.5e9,
    u_relative: { kf: 0.2 },
  },
  outlook: {
    outer_radius_mm: 140,
    inner_radius_mm: 85,
    thickness_mm: 22,
    ring: {
      by: 'tap',
      hz: 1000,
      zeta: 0.003,
      u_zeta: 0.0003,
      band_factor: 5,
      band_heard: false,
      heard_with_band: false,
    },
    holder: { k_n_per_m: 2e7, zeta: 0.03, fn_hz: 250 },
    feed_mm_per_rev: 0.1,
    nose_radius_mm: 0.4,
    banded: true,
    confidence: 0.95,
    rpm: [80, 110],
    depths_mm: [0, 0.1, 0.4],
  },
  diagnose: {
    signs: {
      bench_runout_after_um: 3,
      car_runout_um: 62,
      car_runout_follows_part: true,
      variation_um: 4,
      taper_um: -1,
      micrometer_offset_um: 0.5,
      howl_heard: false,
    },
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
