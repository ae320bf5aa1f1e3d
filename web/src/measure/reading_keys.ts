import type { Signal } from '@preact/signals';
import { type Burst, BurstDetector } from './wedge';

/** What the keys of a place where readings are taken do there. */
export interface KeyActions {
  page: Document;
  /** The field that shows the reading; null while a question stands in its place. */
  field: () => HTMLInputElement | null;
  /** What is typed and not yet taken. */
  typed: Signal<string>;
  /** Takes a reading. False when there is no place for one. */
  take: (text: string) => boolean;
  takeBack: () => void;
  /** Whether a reading is asked about: until that is answered, its answers alone are heard. */
  isAsked: () => boolean;
  /** Answers what is asked by a letter. False when the letter is no answer. */
  answer: (letter: string) => boolean;
  /** Lets go of what is asked, where a gauge's next reading takes its place; else the gauge has to wait. */
  letAskedGo?: () => void;
  /** Closes what lies over the screen, when a reading comes from under it; else that has its keys for itself. */
  closeDrawer?: () => void;
  /** Escape where nothing is typed. */
  leavePlace?: () => void;
  /** Arrows where nothing is typed; else they are the browser's. */
  moveBy?: (by: number) => void;
}

/**
 * What was typed so long before a burst is a stray key; anything nearer belongs to the same reading, as when a busy
 * tablet delivers one key late. Better a reading that the shop questions than one with its first digit gone.
 */
const STRAY_MS = 1000;
/** A field that wants a gauge's reading for itself, such as that of the zero check. */
const OWN = '[data-gauge="own"]';
const TEXT_FIELDS = 'input:not([type="checkbox"]):not([type="radio"]), textarea, select';
const CONTROLS = 'button, a, summary, dialog, [role="radiogroup"]';

/**
 * Keys of a place where readings are taken, wherever the focus is. A gauge's burst is taken as a reading even from inside
 * a field of another matter (whose text is put back); a digit from anywhere goes to the reading; a key that means nothing
 * here is left to the browser and costs nothing.
 */
export function listenToReadingKeys(actions: KeyActions): () => void {
  const { page, field, typed, take, isAsked, closeDrawer } = actions;
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
    if (isAsked() && !actions.letAskedGo) return;
    closeDrawer?.();
    if (isAsked()) actions.letAskedGo?.();
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
    if (!closeDrawer && element.closest('dialog')) return;
    const isReading = element === field();
    if (!isReading && element.matches(TEXT_FIELDS)) {
      inOtherField(event, element);
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey) {
      if (event.key.toLowerCase() !== 'z' || event.altKey) return;
      event.preventDefault();
      actions.takeBack();
      return;
    }
    note(event.key, event.timeStamp);
    const burst = detector.feed(event.key, event.timeStamp);
    if (burst && (typed.value !== '' || isAsked())) {
      event.preventDefault();
      takeBurst((isAsked() ? burst.text : whole(burst)).trim());
    } else if (isAsked()) whileAsked(event, element);
    else if (event.key.length === 1) onCharacter(event, element, isReading);
    else onNamedKey(event, element, isReading);
  };

  const whileAsked = (event: KeyboardEvent, element: HTMLElement) => {
    const isBack = event.key === 'Backspace' && !event.repeat && !element.closest('dialog');
    if (isBack) actions.takeBack();
    if (isBack || (event.key.length === 1 && actions.answer(event.key.toLowerCase()))) event.preventDefault();
  };

  const onCharacter = (event: KeyboardEvent, element: HTMLElement, isReading: boolean) => {
    const begins = /[0-9.,+\-−]/.test(event.key);
    if (typed.value === '' && !begins) {
      if (isReading) event.preventDefault();
      return;
    }
    event.preventDefault();
    if (element.closest('dialog')) closeDrawer?.();
    typed.value += event.key;
    field()?.focus();
  };

  const onNamedKey = (event: KeyboardEvent, element: HTMLElement, isReading: boolean) => {
    const onControl = element.closest(CONTROLS) !== null;
    if (event.key === 'Enter' && typed.value !== '' && (isReading || !onControl)) {
      event.preventDefault();
      take(typed.value);
      field()?.focus();
    } else if (event.key === 'Backspace' && typed.value === '' && !event.repeat && !element.closest('dialog')) {
      event.preventDefault();
      actions.takeBack();
    } else if (event.key === 'Backspace' && typed.value !== '' && !element.closest('dialog')) {
      event.preventDefault();
      typed.value = typed.value.slice(0, -1);
    } else if (event.key === 'Escape' && !element.closest('dialog')) {
      if (typed.value === '') actions.leavePlace?.();
      typed.value = '';
    } else if (
      actions.moveBy &&
      event.key.startsWith('Arrow') &&
      typed.value === '' &&
      !element.closest('dialog, [role="radiogroup"]')
    ) {
      event.preventDefault();
      actions.moveBy(event.key === 'ArrowRight' || event.key === 'ArrowDown' ? 1 : -1);
      field()?.focus();
    }
  };

  page.addEventListener('keydown', onKey, true);
  return () => page.removeEventListener('keydown', onKey, true);
}
