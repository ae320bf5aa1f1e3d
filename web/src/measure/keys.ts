import {
  choose,
  keepQuestioned,
  moveBy,
  questioned,
  retypeQuestioned,
  take,
  takeSuggestion,
  typed,
  undo,
} from './at_bench';
import { listenToReadingKeys } from './reading_keys';
import { doubtsOf } from './shown';

export interface KeyParts {
  page: Document;
  field: () => HTMLInputElement | null;
  closeDrawer: () => void;
}

/** Keys of the measuring screen. */
export const listenForReadings = (parts: KeyParts): (() => void) =>
  listenToReadingKeys({
    ...parts,
    typed,
    take,
    takeBack: undo,
    isAsked: () => questioned.value !== null,
    answer: answerQuestion,
    letAskedGo: () => {
      if (questioned.value) retypeQuestioned(questioned.value);
    },
    leavePlace: () => choose(null),
    moveBy,
  });

/** K keeps, R types again, U takes what it would be otherwise. True when the letter was an answer. */
function answerQuestion(letter: string): boolean {
  const asked = questioned.value;
  if (!asked) return false;
  const suggestion = doubtsOf(asked.entry).find((doubt) => doubt.suggestion)?.suggestion;
  if (letter === 'k' && asked.state === 'questioned') keepQuestioned(asked);
  else if (letter === 'r') retypeQuestioned(asked);
  else if (letter === 'u' && suggestion) takeSuggestion(asked, suggestion.text, suggestion.unit);
  else return false;
  return true;
}
