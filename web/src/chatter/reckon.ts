import { send } from '../api/client';
import type { CalcDiscModesInput, CalcDiscModesOutput, CalcOutlookOutput } from '../api/schema';
import type { Figures } from './figures';
import type { Ring } from './tones';

const ask = <A>(method: string, body: unknown) => send({ method: 'post', path: `/calc/${method}`, body }) as Promise<A>;

const IRON_GPA = 110;

/** The disc's ring as the shop takes it: radii. Its hat raises its tones, so that what is heard or read off a face finds its mode. */
export function plateOf(figures: Figures): Partial<CalcDiscModesInput> {
  return {
    outer_mm: figures.outer_mm / 2,
    inner_mm: figures.inner_mm / 2,
    thickness_mm: figures.thickness_mm,
    inner_edge: 'free',
    e_gpa: IRON_GPA,
    hat: true,
    max_circles: 0,
  };
}

export interface BySize {
  /** With two lines at rest: of the free ring, of the clamped one, and what is counted with. */
  free_hz: number;
  clamped_hz: number;
  /** By how much its hat raises the free ring's tone. */
  hat_raises: number;
  hz: number;
  thin: boolean;
}

const AT_REST = 2;
const lineHz = ({ modes }: CalcDiscModesOutput) => modes.find((one) => one.diameters === AT_REST)?.hz ?? 0;

/** The tone of a ring of this size. */
export async function ringBySize(figures: Figures): Promise<BySize> {
  const plate = plateOf(figures);
  const [with_hat, clamped] = await Promise.all([
    ask<CalcDiscModesOutput>('disc-modes', plate),
    ask<CalcDiscModesOutput>('disc-modes', { ...plate, hat: false, inner_edge: 'clamped' }),
  ]);
  const { hat_raises, thin } = with_hat;
  const hz = lineHz(with_hat);
  return { free_hz: hz / hat_raises, clamped_hz: lineHz(clamped), hat_raises, hz, thin };
}

export const listenTo = (figures: Figures, recording_wav_base64: string) =>
  ask<CalcDiscModesOutput>('disc-modes', { ...plateOf(figures), recording_wav_base64 });

export interface Marks {
  spacing_mm: number;
  u_spacing_mm: number;
  radius_mm: number;
  rpm: number;
}
export const readMarks = (figures: Figures, marks: Marks) =>
  ask<CalcDiscModesOutput>('disc-modes', { ...plateOf(figures), marks });

const N_PER_UM = 1e6;
/** Of a holder, share of critical: from memory. */
export const HOLDER_ZETA = 0.03;

/** A cut of a disc, and what is asked of it. */
export interface Question {
  ring: Ring;
  banded: boolean;
  confidence: number;
  rpm: number[];
  depths_mm: number[];
}

/** What holds and what sings. */
export const reckon = (figures: Figures, question: Question) =>
  ask<CalcOutlookOutput>('outlook', {
    ...question,
    outer_radius_mm: figures.outer_mm / 2,
    inner_radius_mm: figures.inner_mm / 2,
    thickness_mm: figures.thickness_mm,
    holder: { k_n_per_m: figures.holder_n_per_um * N_PER_UM, zeta: HOLDER_ZETA, fn_hz: figures.holder_hz },
    feed_mm_per_rev: figures.feed_mm_per_rev,
    nose_radius_mm: figures.nose_mm,
  });
