import { useState } from 'preact/hooks';
import type { JobFile, Part, RefitAdvice, RefitFitting } from '../api/schema';
import { keepDraft, readDraft } from '../state/drafts';
import { refitEvents } from './bench';
import { type Place, placeFromWords } from './place';
import { refitState } from './refit_steps';

/** The position that is taken, and why where it is not the best. */
export interface Choice {
  position: number;
  plate_id: string | null;
  plate_position: number | null;
  reason: string;
}

const NOTHING = { position: -1, plate_id: null, plate_position: null, reason: '' } as Choice;

export const sameFitting = (
  a: Pick<RefitFitting, 'position' | 'plate_id' | 'plate_position'>,
  b: Pick<RefitFitting, 'position' | 'plate_id' | 'plate_position'>,
): boolean =>
  a.position === b.position &&
  (a.plate_id ?? null) === (b.plate_id ?? null) &&
  (a.plate_position ?? null) === (b.plate_position ?? null);

/** What was chosen on this tablet, else what was ticked at the bench, else the best, else the rotor's own mark. */
export function useChoice(file: JobFile, part: Part, advice: RefitAdvice | null) {
  const name = `refit.${part.id}`;
  const [kept, setKept] = useState(() => readDraft(localStorage, name, NOTHING));
  const best = advice?.refit?.best ?? null;
  const ticked = placeFromWords(refitState(refitEvents(file, part), []).details.get('part_on') ?? '');
  const chosen: Choice = kept.position >= 0 ? kept : (fromTicked(ticked, advice) ?? fromBest(best));
  const fitting = advice?.refit?.all.find((one) => sameFitting(one, chosen)) ?? null;
  const change = (some: Partial<Choice>) => {
    const next = { ...chosen, ...some };
    setKept(next);
    keepDraft(localStorage, name, next);
  };
  const isBest = best === null || sameFitting(best, chosen);
  return { chosen, fitting: isBest && best ? best : fitting, best, isBest, change };
}

export type Choosing = ReturnType<typeof useChoice>;

const fromBest = (best: RefitFitting | null): Choice => ({
  position: best?.position ?? 0,
  plate_id: best?.plate_id ?? null,
  plate_position: best?.plate_position ?? null,
  reason: '',
});

function fromTicked(place: Place | null, advice: RefitAdvice | null): Choice | null {
  if (!place) return null;
  const plate = place.plate && advice?.refit?.all.find((one) => one.plate_id && one.plate_name === place.plate?.name);
  return {
    position: place.turned,
    plate_id: plate?.plate_id ?? null,
    plate_position: plate ? (place.plate?.position ?? null) : null,
    reason: '',
  };
}
