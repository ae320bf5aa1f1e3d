import type { ComponentChildren } from 'preact';

/** Something that opens into its working. */
export function Opens({
  title,
  children,
  open = false,
}: {
  title: string;
  children: ComponentChildren;
  open?: boolean;
}) {
  return (
    <details class="opens" open={open}>
      <summary>{title}</summary>
      <div class="opens-inner">{children}</div>
    </details>
  );
}
