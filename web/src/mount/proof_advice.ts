/** What a proof says, in micrometres, peak to valley. */
export interface ProofFigures {
  runout_um: number;
  upper_bound: boolean;
  part_um: number | null;
  part_deg: number | null;
  mount_um: number | null;
  mount_deg: number | null;
}

export type ProofAdvice = 'go_on' | 'whose' | 'mount' | 'rotor';

/** What to do next: go on, find out whose the wobble is, mount again, or let the cut take the rotor's own off. */
export function adviceOf(figures: ProofFigures, allowed_um: number): ProofAdvice {
  if (figures.runout_um <= allowed_um) return 'go_on';
  if (figures.mount_um === null || figures.part_um === null) return 'whose';
  return figures.mount_um <= allowed_um && figures.part_um > figures.mount_um ? 'rotor' : 'mount';
}

/** Thickness that a cut in this mount costs: the mount's whole share, or all of it while whose it is cannot be told. */
export const costOf = (figures: ProofFigures): number => figures.mount_um ?? figures.runout_um;

/** The swing of a trace. */
export const swingOf = (values_um: readonly number[]): number => Math.max(...values_um) - Math.min(...values_um);
