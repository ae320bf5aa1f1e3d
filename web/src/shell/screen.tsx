import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';

/**
 * One thing to do: a title, the thing, and what is next, always at the same place in the lower third. `next` is the
 * main way on (a `button.main` or `a.button.main`), `aside` what else can be done, quietly, on the other side.
 */
export interface ScreenProps {
  title: string;
  /** A title that is only heard, where the thing itself says it. */
  silentTitle?: boolean;
  name: string;
  next?: ComponentChildren;
  aside?: ComponentChildren;
  children: ComponentChildren;
}

export const screenTitle = signal('');

export function Screen({ title, silentTitle = false, name, next, aside, children }: ScreenProps) {
  useEffect(() => {
    screenTitle.value = title;
  }, [title]);
  return (
    <>
      <main class={`screen screen-${name}`} id="main" tabIndex={-1}>
        <h1 class={silentTitle ? 'heard' : 'screen-title'}>{title}</h1>
        {children}
      </main>
      {next || aside ? (
        <footer class="ahead">
          <div class="ahead-aside">{aside}</div>
          <div class="ahead-next">{next}</div>
        </footer>
      ) : null}
    </>
  );
}
