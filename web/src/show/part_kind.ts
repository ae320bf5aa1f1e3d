import type { Part } from '../api/schema';
import type { PartKind } from '../words';

type Kinded = Pick<Part, 'kind'> | null | undefined;

/** What is turned; who says nothing means a disc. */
export const kindOf = (part: Kinded): PartKind => part?.kind ?? 'disc';

/** Whether it is bored from inside: a drum, also one in the hat of a disc. */
export const isDrum = (part: Kinded): boolean => kindOf(part) !== 'disc';
