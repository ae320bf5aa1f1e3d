import { effect, signal } from '@preact/signals';
import { send } from '../api/client';
import type { CalcCircleOutput } from '../api/schema';
import { shownHere, slots, spread, stage, tab } from './at_bench';
import { meanAt } from './shown';
import { angleOfPoint, isOnCar } from './slots';

/** What the shop makes of the round that is read on the car; its assessment is of the readings at the bench alone. */
export const onCarAnswer = signal<CalcCircleOutput | null>(null);

const FEWEST = 3;
let asked = 0;

effect(() => {
  const mine = ++asked;
  const body = isOnCar(stage.value) && tab.value.round ? roundHere() : null;
  if (!body || body.angles_deg.length < FEWEST) {
    onCarAnswer.value = null;
    return;
  }
  send({ method: 'post', path: '/calc/circle', body }).then(
    (answer) => {
      if (mine === asked) onCarAnswer.value = answer as CalcCircleOutput;
    },
    () => undefined,
  );
});

/** The points that are read, each by its mean. */
function roundHere() {
  const read = slots.value.flatMap((slot) => {
    const nm = meanAt(shownHere.value, slot);
    return nm === null ? [] : [{ angle_deg: angleOfPoint(slot.point, spread.value), um: nm / 1000 }];
  });
  return { angles_deg: read.map((one) => one.angle_deg), values_um: read.map((one) => one.um), max_order: 12 };
}
