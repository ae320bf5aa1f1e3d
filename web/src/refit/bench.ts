import type { JobFile, Part } from '../api/schema';
import { lastCut } from '../guide/bench';
import type { BenchEvent } from '../guide/events';
import { benchEvents } from '../guide/record';
import type { Shown } from '../measure/shown';
import { isDrum } from '../show/part_kind';
import { isOfFitting, tickedOn } from './fitted';
import { type RefitState, refitState } from './refit_steps';

/** What was ticked at this wheel since the rotor was last cut. */
export const refitEvents = (file: JobFile, part: Part): BenchEvent[] =>
  benchEvents(file, { part_id: part.id, phase: 'refit', since: lastCut(file, part)?.at });

/** Of what was read back on the car, what tells of the part as it is on now. */
export function ofThisFitting(file: JobFile, part: Part, shown: readonly Shown[]): Shown[] {
  const on = tickedOn(refitEvents(file, part));
  return shown.filter((one) => isOfFitting(on, one));
}

export function stateOf(file: JobFile, part: Part): RefitState {
  const others = file.parts.filter((one) => one.id !== part.id).map((one) => refitEvents(file, one));
  return refitState(refitEvents(file, part), others, isDrum(part));
}
