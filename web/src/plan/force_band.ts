import { send } from '../api/client';
import type { ForeseenPass } from '../api/schema';
import type { Dials } from '../show/dials';

/** What the force law answers for one tool: its band, and whether the chip is thinner than it was measured for. */
export interface ForceBand {
  force_low_n: number;
  force_high_n: number;
  extrapolated: boolean;
}

export interface Asked {
  depth_mm: number;
  feed_mm_per_rev: number;
  nose_radius_mm: number;
  surface_speed_m_per_min: number;
}

/** The cuts of a pass whose force can be foreseen: those with a depth, within the nose. */
export function askedOf(pass: ForeseenPass, dials: Dials, nose_radius_mm: number): (Asked | null)[] {
  return (['outboard', 'inboard'] as const).map((face) => {
    const depth_mm = (pass[`${face}_marks`] * dials[`${face}_um`]) / 1000;
    if (depth_mm <= 0 || depth_mm > nose_radius_mm) return null;
    const { feed_mm_per_rev, surface_speed_m_per_min } = pass;
    return { depth_mm, feed_mm_per_rev, nose_radius_mm, surface_speed_m_per_min };
  });
}

const keyOf = (asked: Asked) => JSON.stringify([asked.depth_mm, asked.feed_mm_per_rev, asked.nose_radius_mm]);
const known = new Map<string, ForceBand>();

async function bandOf(asked: Asked | null): Promise<ForceBand | null> {
  if (asked === null) return null;
  const key = keyOf(asked);
  const before = known.get(key);
  if (before) return before;
  const answer = (await send({ method: 'post', path: '/calc/force', body: asked })) as ForceBand;
  known.set(key, answer);
  return answer;
}

/** For each pass the bands outboard and inboard; null where nothing is foreseen. */
export function forceBands(
  passes: readonly ForeseenPass[],
  dials: Dials,
  nose_radius_mm: number,
): Promise<(ForceBand | null)[][]> {
  return Promise.all(passes.map((pass) => Promise.all(askedOf(pass, dials, nose_radius_mm).map(bandOf))));
}
