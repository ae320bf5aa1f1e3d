import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { Saving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';

interface Props {
  title: string;
  yes: string;
  no: string;
  saving: Saving;
  /** Not yet: something deliberate is still to be typed. */
  closed?: boolean;
  trouble?: string | undefined;
  onYes: () => void;
  onNo: () => void;
  children: ComponentChildren;
}

/** The second word before something that is not taken back in passing. The way out has the focus. */
export function SecondWord({ title, yes, no, saving, closed = false, trouble, onYes, onNo, children }: Props) {
  const box = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    box.current?.scrollIntoView?.({ block: 'nearest' });
    box.current?.querySelector<HTMLElement>('.plain')?.focus();
  }, []);
  return (
    <section class="second-word" role="alertdialog" aria-label={title} ref={box}>
      <h2>{title}</h2>
      {children}
      <TroubleLine text={trouble} />
      <div class="row">
        <button type="button" class="plain" onClick={onNo}>
          {no}
        </button>
        <button type="button" disabled={saving.busy || closed} onClick={onYes}>
          {yes}
        </button>
      </div>
    </section>
  );
}
