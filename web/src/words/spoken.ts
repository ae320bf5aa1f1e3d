import type { rooms } from '../words';
import type { Otherwise } from './overlay';

/** Any of the page's words, said otherwise of another kind of part. */
export type Spoken = Otherwise<typeof rooms>;
