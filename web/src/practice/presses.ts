/** Where a held key does again what it did, as turning a dial mark by mark. */
const GOES_ON = '.dial-steps, .bench-place';

/**
 * A key that is held down presses a button once: what starts and stops in turn must not go on by itself. Answers how to
 * end it.
 */
export function oncePerPress(page: EventTarget): () => void {
  const hear = (event: Event) => {
    if (!(event instanceof KeyboardEvent) || !event.repeat || event.key !== 'Enter') return;
    if (!(event.target instanceof Element) || event.target.closest(GOES_ON)) return;
    if (event.target.closest('button, a')) event.preventDefault();
  };
  page.addEventListener('keydown', hear, { capture: true });
  return () => page.removeEventListener('keydown', hear, { capture: true });
}
