import type { BenchStep, JobFile, Mount, MountProof, Part } from '../api/schema';

/** What stands on the arbor for a part by the record: its last mount, and what was proven of it since. */
export interface Mounted {
  mount: Mount | null;
  proofs: readonly MountProof[];
  last: MountProof | null;
}

export function mountedOf(file: Pick<JobFile, 'mounts' | 'mount_proofs'>, part_id: string): Mounted {
  const mount = file.mounts.filter((one) => one.part_id === part_id).at(-1) ?? null;
  const proofs = mount
    ? file.mount_proofs.filter((one) => one.part_id === part_id && one.at >= mount.at)
    : ([] as MountProof[]);
  return { mount, proofs, last: proofs.at(-1) ?? null };
}

/** Which lines of the check list stand ticked, since this mount. */
export function ticked(steps: readonly BenchStep[], part_id: string, since: string): ReadonlySet<string> {
  const done = new Set<string>();
  for (const step of steps) {
    if (step.part_id !== part_id || step.phase !== 'mount' || step.received_at < since) continue;
    if (step.event === 'done') done.add(step.step);
    if (step.event === 'undone') done.delete(step.step);
  }
  return done;
}

const HUBLESS = ['bore_clean', 'faces_clean', 'burrs_off', 'pieces_wiped', 'nut_tight'] as const;
const HUBBED = ['races_clean', 'faces_clean', 'burrs_off', 'pieces_wiped', 'nut_tight'] as const;
export const checkList = (construction: Part['construction']): readonly string[] =>
  construction === 'integral_hub' ? HUBBED : HUBLESS;
