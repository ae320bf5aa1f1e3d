import type { ComponentChildren } from 'preact';
import { useLayoutEffect } from 'preact/hooks';
import type { JobFile, Part } from '../api/schema';
import { ChangeCarSetup } from '../car/car_setup';
import { beginAfresh, complete, tab } from '../measure/at_bench';
import { ReadingScreen } from '../measure/reading_screen';
import { ask } from '../route/router';
import { words } from '../words';

/** The runout as it is fitted, read like any other. */
export function FittedReading({ file, part, which }: { file: JobFile; part: Part; which: ComponentChildren }) {
  useLayoutEffect(beginAfresh, [part.id, tab.value.turned]);
  return (
    <ReadingScreen
      stage="refit"
      head={<div class="measure-head">{which}</div>}
      next={
        <button
          type="button"
          class={complete.value ? 'main' : 'main later'}
          onClick={() => ask({ view: 'steps', of: '' })}
        >
          {words.refit.check.back}
        </button>
      }
      change={(close) => <ChangeCarSetup file={file} part={part} onClose={close} />}
    />
  );
}
