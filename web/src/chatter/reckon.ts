import { send } from '../api/client';
import type {
  CalcDiscModesInput,
  CalcDiscModesOutput,
  CalcForceOutput,
  CalcLobesOutput,
  CalcTwinLimitOutput,
} from '../api/schema';
import type { Figures } from './figures';
import {
  countedDepth,
  discStiffness,
  forceStiffness,
  HAT_RAISES,
  type Outlook,
  outlookOf,
  questionsOf,
  type Ring,
} from './model';

const ask = <A>(method: string, body: unknown) => send({ method: 'post', path: `/calc/${method}`, body }) as Promise<A>;

const IRON_GPA = 110;

/**
 * The disc's ring as the shop takes it: radii. Its hat raises its tones, as a stiffer iron would, so that what is heard
 * or read off a face finds its mode.
 */
export function plateOf(figures: Figures): Partial<CalcDiscModesInput> {
  return {
    outer_mm: figures.outer_mm / 2,
    inner_mm: figures.inner_mm / 2,
    thickness_mm: figures.thickness_mm,
    inner_edge: 'free',
    e_gpa: IRON_GPA * HAT_RAISES ** 2,
    max_circles: 0,
  };
}

export interface BySize {
  /** With two lines at rest: of the free ring, of the clamped one, and what is counted with. */
  free_hz: number;
  clamped_hz: number;
  hz: number;
  thin: boolean;
}

const AT_REST = 2;
const lineHz = ({ modes }: CalcDiscModesOutput) => modes.find((one) => one.diameters === AT_REST)?.hz ?? 0;

/** The tone of a ring of this size. */
export async function ringBySize(figures: Figures): Promise<BySize> {
  const plate = { ...plateOf(figures), e_gpa: IRON_GPA };
  const [free, clamped] = await Promise.all([
    ask<CalcDiscModesOutput>('disc-modes', plate),
    ask<CalcDiscModesOutput>('disc-modes', { ...plate, inner_edge: 'clamped' }),
  ]);
  const free_hz = lineHz(free);
  return { free_hz, clamped_hz: lineHz(clamped), hz: HAT_RAISES * free_hz, thin: free.thin };
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

/** What holds and what sings, at these speeds. */
export async function reckon(figures: Figures, ring: Ring, banded: boolean, rpm: number[]): Promise<Outlook> {
  const depth_mm = countedDepth(figures);
  const force = await ask<CalcForceOutput>('force', {
    depth_mm,
    feed_mm_per_rev: figures.feed_mm_per_rev,
    nose_radius_mm: figures.nose_mm,
  });
  const kf = forceStiffness(force, depth_mm);
  const asked = questionsOf(figures, ring, kf, banded, rpm);
  const twin = (body: unknown) => ask<CalcTwinLimitOutput>('twin-limit', body);
  const lobes = (body: unknown) => ask<CalcLobesOutput>('lobes', body);
  const [here, bare, with_band, disc, tools] = await Promise.all([
    twin(asked.here),
    twin(asked.bare),
    twin(asked.banded),
    lobes(asked.disc),
    lobes(asked.tools),
  ]);
  return outlookOf({ here, bare, banded: with_band, disc, tools }, kf, discStiffness(figures, ring.hz));
}
