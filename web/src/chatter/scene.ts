import type { CutPlan, Lathe, Part, ShopView } from '../api/schema';
import type { Dials } from '../show/dials';
import type { Figures } from './figures';

const NM_PER_MM = 1e6;
const UM_PER_MM = 1000;

/** What the job knows of the disc: its size, as thick as it was when new. */
export function figuresOfPart(part: Part | null): Partial<Figures> {
  if (!part) return {};
  const found: Partial<Figures> = {};
  const outer = part.outer_diameter?.nm;
  const inner = part.seat?.ring_inner?.nm;
  const thickness = (part.limits.nominal ?? part.limits.discard)?.value.nm;
  if (outer) found.outer_mm = outer / NM_PER_MM;
  if (inner) found.inner_mm = inner / NM_PER_MM;
  if (thickness) found.thickness_mm = thickness / NM_PER_MM;
  return found;
}

type Plan = Pick<CutPlan, 'passes' | 'insert_id'>;

/** What the plan and the shop say of the cut: the feed of the deepest pass, else one in the lathe's middle; the insert's nose. */
export function figuresOfCut(plan: Plan | null, lathe: Lathe | null, shop: Pick<ShopView, 'inserts'> | null) {
  const found: Partial<Figures> = {};
  const [deepest] = [...(plan?.passes ?? [])].sort((a, b) => marksOf(b) - marksOf(a));
  const feed = deepest?.feed_mm_per_rev ?? middleOf(lathe?.feeds_mm_per_rev ?? []);
  const active = shop?.inserts.filter((one) => one.active) ?? [];
  const insert = active.find((one) => one.id === plan?.insert_id) ?? active[0];
  if (feed) found.feed_mm_per_rev = feed;
  if (insert) found.nose_mm = insert.nose_radius_nm / NM_PER_MM;
  return found;
}

type Marks = { outboard_marks: number; inboard_marks: number };
const marksOf = (pass: Marks) => Math.max(pass.outboard_marks, pass.inboard_marks);

const inOrder = (values: readonly number[]) => [...values].sort((a, b) => a - b);

/** The lower one of the two in the middle. */
const middleOf = (values: readonly number[]): number | undefined =>
  inOrder(values)[Math.floor((values.length - 1) / 2)];

/** The depth to begin with, of one side: the deepest of the plan, else as deep as the house lets a last pass go. */
export function depthFor(plan: Plan | null, dials: Dials, finish_max_um: number | undefined): number {
  const depths = plan?.passes.flatMap((pass) => [
    pass.outboard_marks * dials.outboard_um,
    pass.inboard_marks * dials.inboard_um,
  ]);
  return Math.max(0, ...(depths ?? [])) / UM_PER_MM || (finish_max_um ?? 100) / UM_PER_MM;
}

/** Speeds to draw with where a lathe has told none: common for a bench lathe, no source. */
export const SOME_SPEEDS = [80, 110, 150];
export const speedsOf = (lathe: Lathe | null): { rpm: number[]; told: boolean } => {
  const told = lathe?.speeds_rpm ?? [];
  return told.length > 0 ? { rpm: inOrder(told), told: true } : { rpm: SOME_SPEEDS, told: false };
};

/** The cut that is asked about, before anybody types: what the job, the lathe and the shop say of it. */
export interface Cutting {
  /** Under which name what was tapped of this disc is kept; null where nobody knows which disc it is. */
  kept: string | null;
  lathe: Lathe | null;
  job: Partial<Figures>;
  shop: Partial<Figures>;
  /** Depth of a mark on the dial. */
  mark_um: number;
  depth_mm: number;
}
