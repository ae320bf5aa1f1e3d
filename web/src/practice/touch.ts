import type { ToolView } from './model';

/** What a tool does, as an ear would tell it. */
export type Touch = 'air' | 'once' | 'part' | 'round' | 'rubs' | 'sings';

/** Up to this share of a turn it is one touch a turn; from the other on it is all round. From use, no source. */
const ONCE = 0.3;
const ROUND = 0.97;

export function touchOf(tool: Pick<ToolView, 'contact_share' | 'sings' | 'rubs'>): Touch {
  if (tool.contact_share <= 0) return 'air';
  if (tool.sings) return 'sings';
  if (tool.rubs) return 'rubs';
  if (tool.contact_share < ONCE) return 'once';
  return tool.contact_share < ROUND ? 'part' : 'round';
}

/** Full length of the bar of thrust. From use, no source. */
const FULL_THRUST_N = 200;

/** How long the bar of thrust is, 0 to 1: by the root, so that a light touch is seen. */
export function thrustShare(thrust_n: number): number {
  return Math.min(1, Math.sqrt(Math.max(0, thrust_n) / FULL_THRUST_N));
}
