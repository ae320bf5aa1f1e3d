import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { words } from '../words';

/** A sheet over the edge of the screen, from the side on wide screens and from below on phones. Esc closes it. */
export interface DrawerProps {
  title: string;
  onClose: () => void;
  children: ComponentChildren;
}

export function Drawer({ title, onClose, children }: DrawerProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => {
    const shown = dialog.current;
    if (shown && !shown.open) shown.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog
      ref={dialog}
      class="drawer"
      aria-label={title}
      onClose={onClose}
      onClick={(event) => {
        if (event.target === dialog.current) dialog.current?.close();
      }}
      onKeyDown={(event) => {
        if (event.key === 'Escape') event.stopPropagation();
      }}
    >
      <div class="drawer-sheet">
        <div class="drawer-head">
          <h2>{title}</h2>
          <button type="button" class="plain" onClick={() => dialog.current?.close()}>
            {words.shell.close}
          </button>
        </div>
        {children}
      </div>
    </dialog>
  );
}
