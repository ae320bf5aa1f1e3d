import { words } from '../words';
import { LimitList } from './limit_list';
import type { BenchAction } from './model';
import { ReadingList } from './reading_list';
import { readingsOf } from './readings';
import { RefusedLine } from './refused_line';
import type { AtBench } from './use_run';

const ACTIONS: readonly BenchAction[] = ['leave', 'cut', 'replace'];

/** Leave it, cut it, or replace it: by what was read. */
export function Deciding({ at }: { at: AtBench }) {
  const { decide: said } = words.practice_bench;
  const { view, bench, acts } = at.run;
  const readings = readingsOf(acts);
  return (
    <section class="bench-two" aria-label={said.title}>
      <div class="bench-thing">
        <h2>{said.title}</h2>
        <p class="soft">{said.lead}</p>
        <RefusedLine at={at} of={['decide']} />
        <fieldset class="bench-decisions" aria-label={said.title}>
          {ACTIONS.map((action) => (
            <button
              key={action}
              type="button"
              class="bench-decision"
              aria-pressed={view.decided === action}
              onClick={() => at.act({ do: 'decide', action })}
            >
              <strong>{said.actions[action].name}</strong>
              <span class="small">{said.actions[action].means}</span>
              {view.decided === action ? <span class="small">{said.chosen}</span> : null}
            </button>
          ))}
        </fieldset>
      </div>
      <div class="bench-beside">
        <LimitList make={bench.make} />
        {readings.length > 0 ? (
          <ReadingList readings={readings} instruments={bench.instruments} />
        ) : (
          <p class="soft">{said.none}</p>
        )}
      </div>
    </section>
  );
}
