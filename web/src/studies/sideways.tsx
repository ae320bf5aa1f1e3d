import type { ComponentChildren, RefObject } from 'preact';

interface Props {
  label: string;
  frame?: RefObject<HTMLDivElement | null>;
  children: ComponentChildren;
}

/** What may be wider than a phone: moved along by finger or by arrow keys, without moving the page. */
export function Sideways({ label, frame, children }: Props) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: without the focus the keyboard could not move it
    // biome-ignore lint/a11y/useSemanticElements: a set of fields it is not
    <div ref={frame ?? null} class="study-wide" role="group" aria-label={label} tabIndex={0}>
      {children}
    </div>
  );
}
