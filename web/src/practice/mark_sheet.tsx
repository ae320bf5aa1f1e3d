import { typeset } from '../show/typeset';
import { words } from '../words';
import type { Mark } from './model';
import { whole } from './numbers';

/** The points large, each part with its bar and its sentence, the truth, and what an expert would have done. */
export function MarkSheet({ mark }: { mark: Mark }) {
  const { practice_mark: said, practice } = words;
  return (
    <div class="mark-sheet">
      <section class="mark-points" aria-label={said.title}>
        <p>
          <span class="bench-figure figures">{whole(mark.points)}</span> <span class="bench-unit">{said.of}</span>
        </p>
        <p class={mark.safe ? 'soft' : 'doubt'}>{mark.safe ? said.safe : said.unsafe}</p>
      </section>
      <section aria-label={said.parts}>
        <h2>{said.parts}</h2>
        <ul class="mark-parts">
          {mark.parts.map((part) => (
            <li key={part.code}>
              <p class="mark-part-head">
                <strong>{said.part(part.code)}</strong>{' '}
                <span class="figures">{said.points(whole(part.points), whole(part.of))}</span>{' '}
                {part.code === mark.weakest ? <span class="small soft">{said.weakest}</span> : null}
              </p>
              <span class="tool-track" aria-hidden="true">
                <span class="mark-bar" style={{ width: `${part.of > 0 ? (100 * part.points) / part.of : 0}%` }} />
              </span>
              <p>{typeset(part.why)}</p>
            </li>
          ))}
        </ul>
      </section>
      <section aria-label={said.truth}>
        <h2>{said.truth}</h2>
        {mark.faults.length === 0 ? <p>{said.nothing_wrong}</p> : null}
        <dl class="mark-truth">
          {mark.faults.map((fault) => (
            <div key={fault}>
              <dt>{practice.fault(fault)}</dt>
              <dd class="soft">{practice.faults[fault]?.means ?? ''}</dd>
            </div>
          ))}
        </dl>
      </section>
      <section aria-label={said.expert}>
        <h2>{said.expert}</h2>
        <ol class="mark-expert">
          {mark.expert.map((step) => (
            <li key={step}>{typeset(step)}</li>
          ))}
        </ol>
      </section>
      {mark.next_why ? (
        <section aria-label={said.next_why}>
          <h2>{said.next_why}</h2>
          <p>{typeset(mark.next_why)}</p>
        </section>
      ) : null}
    </div>
  );
}
