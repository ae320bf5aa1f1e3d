import { listenToReadingKeys } from '../measure/reading_keys';
import { keepAsked, retypeAsked, standing, take, takeBack, typed } from './at_study';

export interface KeyParts {
  page: Document;
  field: () => HTMLInputElement | null;
}

/**
 * Keys of the blind place. A gauge's reading waits while an earlier one is asked about: the hand has gone on by then, and
 * what it sends is of another part.
 */
export const listenInStudy = (parts: KeyParts): (() => void) =>
  listenToReadingKeys({
    ...parts,
    typed,
    take,
    takeBack,
    isAsked: () => !!standing.value?.asked,
    answer: answerAsked,
  });

/** K keeps, R types again. True when the letter was an answer. */
function answerAsked(letter: string): boolean {
  const asked = standing.value?.asked;
  if (letter === 'k' && asked?.state === 'questioned') keepAsked();
  else if (letter === 'r' && asked) retypeAsked();
  else return false;
  return true;
}
