import { words } from '../words';
import type { ActDone } from './model';
import { lastSeen } from './readings';

/** What the last look saw, in words. */
export function LookList({ acts }: { acts: readonly ActDone[] }) {
  const { look: said } = words.practice_bench;
  const seen = lastSeen(acts);
  return (
    <section class="bench-look" aria-label={said.title} aria-live="polite">
      <h2>{said.title}</h2>
      {seen === null ? <p class="soft">{said.not_yet}</p> : null}
      {seen?.length === 0 ? <p>{said.nothing}</p> : null}
      {seen && seen.length > 0 ? (
        <ul>
          {seen.map((code) => (
            <li key={code}>{said.seen(code)}</li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}
