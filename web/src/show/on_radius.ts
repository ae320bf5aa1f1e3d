import { words } from '../words';
import { type HowShown, lengthOfMm } from './length';

/** A depth of a cut in a drum: on its radius, and beside it what the diameter changes by. */
export const onRadius = (depth_um: number, how: HowShown): string =>
  words.trade.on_radius(lengthOfMm(depth_um / 1000, how), lengthOfMm((2 * depth_um) / 1000, how));
