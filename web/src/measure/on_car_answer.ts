import { send } from '../api/client';
import type { CalcCircleOutput } from '../api/schema';
import { useAnswer } from '../state/answer';
import { part, shownHere, slots, spread, stage, tab } from './at_bench';
import { meanAt } from './shown';
import { angleOfPoint, isOnCar } from './slots';

const FEWEST = 3;

/**
 * What the shop makes of the round that is read on the car; its assessment is of the readings at the bench alone. While
 * a round grows its last answer stands; never that of another round, nor one that the shop takes no longer.
 */
export function useOnCarAnswer(): CalcCircleOutput | null {
  const body = isOnCar(stage.value) && tab.value.round ? roundHere() : null;
  const asked = body && body.angles_deg.length >= FEWEST ? body : null;
  const round = [part.value?.id, stage.value, tab.value.name, tab.value.turned].join('/');
  const ask = async () => {
    const found = asked ? await send({ method: 'post', path: '/calc/circle', body: asked }) : null;
    return { round, found: found as CalcCircleOutput | null };
  };
  const { answer, trouble } = useAnswer(ask, [round, JSON.stringify(asked)]);
  return asked && !trouble && answer?.round === round ? answer.found : null;
}

/** The points that are read, each by its mean. */
function roundHere() {
  const read = slots.value.flatMap((slot) => {
    const nm = meanAt(shownHere.value, slot);
    return nm === null ? [] : [{ angle_deg: angleOfPoint(slot.point, spread.value), um: nm / 1000 }];
  });
  return { angles_deg: read.map((one) => one.angle_deg), values_um: read.map((one) => one.um), max_order: 12 };
}
