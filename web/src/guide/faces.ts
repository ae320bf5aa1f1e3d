import type { Part } from '../api/schema';
import { isDrum } from '../show/part_kind';

export type Face = 'outboard' | 'inboard';

const BOTH: readonly Face[] = ['outboard', 'inboard'];
const INSIDE: readonly Face[] = ['outboard'];

/** What tools cut: both faces of a rotor; the one surface of a drum, which stands as the outboard one. */
export const facesOf = (part: Pick<Part, 'kind'>): readonly Face[] => (isDrum(part) ? INSIDE : BOTH);
