import type { ComponentChildren } from 'preact';

/** A caution, where the hand is about to do it, with the source that it rests on. */
export function Caution({ title, source, children }: { title: string; source?: string; children: ComponentChildren }) {
  return (
    <section class="caution" aria-label={title}>
      <h2>{title}</h2>
      {children}
      {source ? <p class="small soft">{source}</p> : null}
    </section>
  );
}
