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
import { doubtsOf } from './shown';
import { type Burst, BurstDetector } from './wedge';

/**
 * Keys of the measuring screen, wherever the focus is. A gauge's burst is taken as a reading even from inside a field of
 * another matter (whose text is put back); a digit from anywhere goes to the reading; a key that means nothing here is
 * left to the browser and costs nothing.
 */
export interface KeyParts {
  page: Document;
  /** The field that shows the reading; null while a question stands in its place. */
  field: () => HTMLInputElement | null;
  /** Closes what lies over the screen, when a reading comes from under it. */
  closeDrawer: () => void;
}

/**
 * What was typed so long before a burst is a stray key; anything nearer belongs to the same reading, as when a busy
 * tablet delivers one key late. Better a reading that the shop questions than one with its first digit gone.
 */
const STRAY_MS = 1000;
/** A field that wants a gauge's reading for itself, such as that of the zero check. */
const OWN = '[data-gauge="own"]';
const TEXT_FIELDS = 'input:not([type="checkbox"]):not([type="radio"]), textarea, select';

export function listenForReadings({ page, field, closeDrawer }: KeyParts): () => void {
  const detector = new BurstDetector();
  let before: { element: HTMLInputElement | HTMLTextAreaElement; value: string; at_ms: number } | null = null;

  let last_ms = Number.NEGATIVE_INFINITY;
  let lead_ms = Number.NEGATIVE_INFINITY;

  /** Notes when keys came, so that a burst's beginning can be told from what lay there before it. */
  const note = (key: string, at_ms: number) => {
    if (key.length !== 1) return;
    if (!detector.joins(at_ms)) lead_ms = last_ms;
    last_ms = at_ms;
  };
  const whole = (burst: Burst) =>
    typed.value !== '' && burst.began_ms - lead_ms < STRAY_MS ? typed.value : burst.text;

  const takeBurst = (text: string) => {
    closeDrawer();
    const asked = questioned.value;
    if (asked) retypeQuestioned(asked);
    typed.value = '';
    if (!take(text)) typed.value = text;
    field()?.focus();
  };

  const inOtherField = (event: KeyboardEvent, element: HTMLElement) => {
    const isText = element instanceof HTMLInputElement || element instanceof HTMLTextAreaElement;
    if (isText && event.key.length === 1 && !detector.joins(event.timeStamp)) {
      before = { element, value: element.value, at_ms: event.timeStamp };
    }
    const burst = detector.feed(event.key, event.timeStamp);
    if (!burst || element.closest(OWN)) return;
    event.preventDefault();
    event.stopPropagation();
    if (before && before.element === element && before.at_ms >= burst.began_ms - 1) {
      before.element.value = before.value;
      before.element.dispatchEvent(new Event('input', { bubbles: true }));
    }
    takeBurst(burst.text);
  };

  const onKey = (event: KeyboardEvent) => {
    const element = event.target instanceof HTMLElement ? event.target : page.body;
    const isReading = element === field();
    if (!isReading && element.matches(TEXT_FIELDS)) {
      inOtherField(event, element);
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey) {
      if (event.key.toLowerCase() !== 'z' || event.altKey) return;
      event.preventDefault();
      undo();
      return;
    }
    note(event.key, event.timeStamp);
    const burst = detector.feed(event.key, event.timeStamp);
    if (burst && typed.value !== '') {
      event.preventDefault();
      takeBurst(whole(burst).trim());
    } else if (event.key.length === 1) onCharacter(event, element, isReading);
    else onNamedKey(event, element, isReading);
  };

  const onCharacter = (event: KeyboardEvent, element: HTMLElement, isReading: boolean) => {
    if (answerQuestion(event.key)) {
      event.preventDefault();
      return;
    }
    const begins = /[0-9.,+\-−]/.test(event.key);
    if (typed.value === '' && !begins) {
      if (isReading) event.preventDefault();
      return;
    }
    event.preventDefault();
    if (element.closest('dialog')) closeDrawer();
    typed.value += event.key;
    field()?.focus();
  };

  const onNamedKey = (event: KeyboardEvent, element: HTMLElement, isReading: boolean) => {
    const onControl = element.closest('button, a, summary, dialog, [role="radiogroup"]') !== null;
    if (event.key === 'Enter' && typed.value !== '' && (isReading || !onControl)) {
      event.preventDefault();
      take(typed.value);
      field()?.focus();
    } else if (event.key === 'Backspace' && typed.value === '' && !event.repeat && !element.closest('dialog')) {
      event.preventDefault();
      undo();
    } else if (event.key === 'Backspace' && typed.value !== '' && !element.closest('dialog')) {
      event.preventDefault();
      typed.value = typed.value.slice(0, -1);
    } else if (event.key === 'Escape' && !element.closest('dialog')) {
      if (typed.value === '') choose(null);
      typed.value = '';
    } else if (event.key.startsWith('Arrow') && typed.value === '' && !element.closest('dialog, [role="radiogroup"]')) {
      event.preventDefault();
      moveBy(event.key === 'ArrowRight' || event.key === 'ArrowDown' ? 1 : -1);
      field()?.focus();
    }
  };

  page.addEventListener('keydown', onKey, true);
  return () => page.removeEventListener('keydown', onKey, true);
}

/** K keeps, R types again, U takes what it would be otherwise. True when the key was an answer. */
export function answerQuestion(key: string): boolean {
  const letter = key.toLowerCase();
  const asked = questioned.value;
  if (!asked) return false;
  const suggestion = doubtsOf(asked.entry).find((doubt) => doubt.suggestion)?.suggestion;
  if (letter === 'k' && asked.state === 'questioned') keepQuestioned(asked);
  else if (letter === 'r') retypeQuestioned(asked);
  else if (letter === 'u' && suggestion) takeSuggestion(asked, suggestion.text, suggestion.unit);
  else return false;
  return true;
}
