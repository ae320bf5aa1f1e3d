import { useEffect, useState } from 'preact/hooks';
import { inOneAct } from './dial';
import { SIDES, type Side } from './model';
import type { AtBench } from './use_run';

/** Marks that a finger has turned and that are not yet with the shop: they go as soon as nothing else is on its way. */
export function useDials(at: AtBench) {
  const [ahead, setAhead] = useState<Record<Side, number>>({ outboard: 0, inboard: 0 });
  const turn = (side: Side, marks: number) => setAhead((now) => ({ ...now, [side]: now[side] + marks }));
  useEffect(() => {
    if (!at.isIdle()) return;
    const side = SIDES.find((one) => ahead[one] !== 0);
    if (!side) return;
    const marks = inOneAct(ahead[side]);
    setAhead((now) => ({ ...now, [side]: now[side] - marks }));
    at.act({ do: 'turn_dial', side, marks });
  }, [ahead, at.idle, at.answers]);
  return { ahead, turn };
}
