import type { CalcForceOutput, CalcLobesOutput, CalcTwinLimitOutput } from '../api/schema';
import type { Figures } from './figures';

/** Kienzle's exponent of grey iron, as the shop's force law has it. */
const MC = 0.26;
/** The part of the force that pushes into the disc: from memory. */
export const THRUST_SHARE = 0.5;
/** The cut that the force is counted for: a shallower one meets more of the round edge per depth, a deeper one less. */
export const COUNTED_DEPTH_MM = 0.1;
/** Of the ring's iron, what swings with two diameters at rest: a flat ring's, from plate theory. */
export const SWINGING_SHARE = 0.2;
/** How much higher than a free flat ring a disc rings with its hat on: common practice, no source. */
export const HAT_RAISES = 1.25;
export const IRON_KG_PER_M3 = 7200;

/** Relative standard uncertainties: all from judgement. */
export const U = {
  /** Of the cutting force: the law's spread, its thrust and its stretch to thin chips. */
  force: 0.3,
  /** Of the disc's stiffness, from its size and from a frequency that was measured. */
  stiffness_by_size: 0.4,
  stiffness_by_tone: 0.25,
  damping: 0.5,
  /** Of a damping that was heard on the hung rotor: on the arbor it is another. */
  damping_heard: 0.3,
  band: 0.4,
  band_heard: 0.2,
};

/** How the disc rings, and how well that is known. */
export interface Ring {
  hz: number;
  /** Of critical, without the band. */
  zeta: number;
  /** What the band multiplies it by. */
  band_times: number;
  u_stiffness: number;
  u_zeta: number;
  u_band: number;
}

const MM_PER_M = 1000;

/** Iron of the ring, as if it had no vents. */
export const ringMass = ({ outer_mm, inner_mm, thickness_mm }: Figures): number =>
  (IRON_KG_PER_M3 * (Math.PI / 4) * (outer_mm ** 2 - inner_mm ** 2) * thickness_mm) / MM_PER_M ** 3;

/** Stiffness at the rim that the swinging iron has at this frequency. */
export const discStiffness = (figures: Figures, hz: number): number =>
  SWINGING_SHARE * ringMass(figures) * (2 * Math.PI * hz) ** 2;

/** The depth at which the force is counted: no deeper than the nose. */
export const countedDepth = ({ nose_mm }: Pick<Figures, 'nose_mm'>): number => Math.min(COUNTED_DEPTH_MM, nose_mm);

/**
 * Force per metre of depth and metre of chip thickness: how the thrust grows as the chip gets thicker all along the
 * round edge, the part that points into the disc. Newtons per square metre.
 */
export function forceStiffness(
  force: Pick<CalcForceOutput, 'force_n' | 'contact_mm' | 'chip_area_mm2' | 'mean_cos'>,
  depth_mm: number,
): number {
  const chip_m = force.chip_area_mm2 / force.contact_mm / MM_PER_M;
  return (THRUST_SHARE * (1 - MC) * force.force_n * force.mean_cos ** 2) / chip_m / (depth_mm / MM_PER_M);
}

const N_PER_UM = 1e6;
const MOST_ZETA = 0.9;
const HOLDER_ZETA = 0.03;
export const HOLDER_ZETA_PERCENT = 100 * HOLDER_ZETA;

export const zetaOf = (ring: Ring, banded: boolean): number =>
  Math.min(MOST_ZETA, ring.zeta * (banded ? ring.band_times : 1));

interface Mode {
  k_n_per_m: number;
  zeta: number;
  fn_hz: number;
  /** Two tools on one disc count it twice. */
  weight?: number;
}

const holderOf = (figures: Figures): Mode => ({
  k_n_per_m: figures.holder_n_per_um * N_PER_UM,
  zeta: HOLDER_ZETA,
  fn_hz: figures.holder_hz,
});

const together = (...parts: number[]) => Math.hypot(...parts);

/** What is asked of the shop: the two tools on the disc with the band and without, and each way to sing by itself. */
export function questionsOf(figures: Figures, ring: Ring, kf_n_per_m2: number, banded: boolean, rpm: number[]) {
  const holder = holderOf(figures);
  const k_disc = discStiffness(figures, ring.hz);
  const twin = (with_band: boolean) => ({
    k_tool: holder.k_n_per_m,
    zeta_tool: holder.zeta,
    fn_tool_hz: holder.fn_hz,
    k_disc,
    zeta_disc: zetaOf(ring, with_band),
    fn_disc_hz: ring.hz,
    kf_n_per_m2,
  });
  const disc: Mode = { k_n_per_m: k_disc, zeta: zetaOf(ring, banded), fn_hz: ring.hz, weight: 2 };
  const lobes = (modes: Mode[], k: number, zeta: number) => ({
    modes,
    kf_n_per_m2,
    rpm,
    u_relative: { k, zeta, kf: U.force },
  });
  const u_zeta = banded ? together(ring.u_zeta, ring.u_band) : ring.u_zeta;
  return {
    here: twin(banded),
    bare: twin(false),
    banded: twin(true),
    disc: lobes([holder, disc], ring.u_stiffness, u_zeta),
    tools: lobes([holder], U.stiffness_by_tone, U.damping),
  };
}

/** A depth at which it begins to sing, with 95 % of what it may be. */
export interface Limit {
  mm: number;
  low_mm: number;
  high_mm: number;
}

export interface Outlook {
  disc: Limit;
  tools: Limit;
  /** Of whatever sings first. */
  limit: Limit;
  governed_by: 'disc' | 'tools';
  /** How many times as deep the cut may be with the band on. */
  worth: number;
  bare_mm: number;
  banded_mm: number;
  /** One tool alone on the same disc. */
  single_side_mm: number;
  single_by: 'disc' | 'tools';
  sings_hz: number;
  /** At each speed that was asked for; null where the shop tells none. */
  at_mm: (number | null)[];
  kf_n_per_m2: number;
  k_disc_n_per_m: number;
}

export interface Answers {
  here: CalcTwinLimitOutput;
  bare: CalcTwinLimitOutput;
  banded: CalcTwinLimitOutput;
  disc: CalcLobesOutput;
  tools: CalcLobesOutput;
}

const limitOf = ({ absolute_limit_mm, absolute_limit_band_mm }: CalcLobesOutput): Limit => ({
  mm: absolute_limit_mm,
  low_mm: absolute_limit_band_mm?.low95 ?? absolute_limit_mm,
  high_mm: absolute_limit_band_mm?.high95 ?? absolute_limit_mm,
});

/** Whose tone a frequency is. */
const nearer = (hz: number, { chatter_hz, tools_only_hz }: CalcTwinLimitOutput): 'disc' | 'tools' =>
  Math.abs(Math.log(hz / chatter_hz)) < Math.abs(Math.log(hz / tools_only_hz)) ? 'disc' : 'tools';

/** The two ways to sing put together: it does as soon as one of them does, and both share the force's error. */
export function outlookOf(answers: Answers, kf_n_per_m2: number, k_disc_n_per_m: number): Outlook {
  const [disc, tools] = [limitOf(answers.disc), limitOf(answers.tools)];
  const { here, bare, banded } = answers;
  const less = (a: number | null | undefined, b: number | null | undefined) =>
    a === null || a === undefined ? (b ?? null) : b === null || b === undefined ? a : Math.min(a, b);
  return {
    disc,
    tools,
    limit: {
      mm: here.limit_mm,
      low_mm: Math.min(disc.low_mm, tools.low_mm),
      high_mm: Math.min(disc.high_mm, tools.high_mm),
    },
    governed_by: here.governed_by,
    worth: banded.limit_mm / bare.limit_mm,
    bare_mm: bare.limit_mm,
    banded_mm: banded.limit_mm,
    single_side_mm: here.single_side_mm,
    single_by: nearer(here.single_side_hz, here),
    sings_hz: here.governed_by === 'disc' ? here.chatter_hz : here.tools_only_hz,
    at_mm: answers.disc.limit_mm.map((mm, i) => less(mm, answers.tools.limit_mm[i])),
    kf_n_per_m2,
    k_disc_n_per_m,
  };
}
