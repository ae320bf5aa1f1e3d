import { useEffect, useState } from 'preact/hooks';
import type { JobFile, Part, RefitAdvice, RefitFitting, TaperPlate } from '../api/schema';
import { dropDraft, keepDraft, readDraft } from '../state/drafts';
import { shop } from '../state/shop';
import { stateOf } from './bench';
import { type Place, placeFromWords } from './place';
import type { RefitState } from './refit_steps';

/** The position that is taken, and why where it is not the best. */
export interface Choice {
  position: number;
  plate_id: string | null;
  plate_position: number | null;
  reason: string;
}

type Where = Pick<RefitFitting, 'position' | 'plate_id' | 'plate_position'>;

export const sameFitting = (a: Where, b: Where): boolean =>
  a.position === b.position &&
  (a.plate_id ?? null) === (b.plate_id ?? null) &&
  (a.plate_position ?? null) === (b.plate_position ?? null);

/** Where the part is, as long as it is ticked that it is on. */
export function placeOn({ done, details }: Pick<RefitState, 'done' | 'details'>): Place | null {
  return done.has('part_on') ? placeFromWords(details.get('part_on') ?? '') : null;
}

/**
 * Where the part is once it is ticked to be on, wherever that was ticked; before that what was chosen on this tablet;
 * else the best, and its own mark where none can be worked out. Null while the shop has not said which.
 */
export function chosenOf(
  own: Choice | null,
  on: Place | null,
  advice: Pick<RefitAdvice, 'refit'> | null,
  plates: readonly TaperPlate[],
): Choice | null {
  if (on) {
    const is = isAt(on, plates);
    return is.reason === '' && own && sameFitting(own, is) ? { ...is, reason: own.reason } : is;
  }
  if (own) return own;
  if (!advice) return null;
  const best = advice.refit?.best;
  return {
    position: best?.position ?? 0,
    plate_id: best?.plate_id ?? null,
    plate_position: best?.plate_position ?? null,
    reason: '',
  };
}

function isAt({ turned, plate, reason }: Place, plates: readonly TaperPlate[]): Choice {
  const named = plate ? plates.find((one) => one.name === plate.name) : undefined;
  return {
    position: turned,
    plate_id: named?.id ?? null,
    plate_position: named && plate ? plate.position : null,
    reason,
  };
}

export interface Choosing {
  chosen: Choice;
  /** What is foreseen there; null where nothing is. */
  fitting: RefitFitting | null;
  best: RefitFitting | null;
  isBest: boolean;
  /** The shop keeps no other place than the best without its reason. */
  reasonMissing: boolean;
  change: (some: Partial<Choice>) => void;
  /** The part is on, and that is ticked: from now on that says where. */
  settle: () => void;
}

const NOTHING: Choice = { position: -1, plate_id: null, plate_position: null, reason: '' };

/** How this part goes on; null while that is not known yet. */
export function useChoice(file: JobFile, part: Part, advice: RefitAdvice | null): Choosing | null {
  const name = `refit.${part.id}`;
  const [kept, setKept] = useState(() => readDraft(localStorage, name, NOTHING));
  const on = placeOn(stateOf(file, part));
  const own = kept.position < 0 ? null : kept;
  const chosen = chosenOf(own, on, advice, shop.value?.taper_plates ?? []);
  const elsewhere = on !== null && own !== null && chosen !== null && !sameFitting(own, chosen);
  const settle = () => {
    dropDraft(localStorage, name);
    setKept(NOTHING);
  };
  useEffect(() => {
    if (elsewhere) settle();
  }, [elsewhere]);
  if (!chosen) return null;
  const best = advice?.refit?.best ?? null;
  const isBest = best === null || sameFitting(best, chosen);
  return {
    chosen,
    fitting: advice?.refit?.all.find((one) => sameFitting(one, chosen)) ?? (isBest ? best : null),
    best,
    isBest,
    reasonMissing: !isBest && chosen.reason.trim() === '',
    change: (some) => {
      const next = { ...chosen, ...some };
      setKept(next);
      keepDraft(localStorage, name, next);
    },
    settle,
  };
}
