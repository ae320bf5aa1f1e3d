import type { JobFile, Part } from '../api/schema';
import { lastCut } from '../guide/bench';
import type { BenchEvent } from '../guide/events';
import { benchEvents } from '../guide/record';
import { type RefitState, refitState } from './refit_steps';

/** A disc has a face that an indicator reaches on the car; of a drum it is closed in. */
export const hasFace = (part: Part): boolean => (part.kind ?? 'disc') === 'disc';

/** What was ticked at this wheel since the rotor was last cut. */
export const refitEvents = (file: JobFile, part: Part): BenchEvent[] =>
  benchEvents(file, { part_id: part.id, phase: 'refit', since: lastCut(file, part)?.at });

export function stateOf(file: JobFile, part: Part): RefitState {
  const others = file.parts.filter((one) => one.id !== part.id).map((one) => refitEvents(file, one));
  return refitState(refitEvents(file, part), others, !hasFace(part));
}
