import { useEffect, useState } from 'preact/hooks';
import { send } from '../api/client';
import type { JobFile, Part, StackAdvice } from '../api/schema';
import { type Trouble, troubleOf } from '../controls/saving';
import { lastChange } from '../state/connection';

const COUNT = 3;
const SETTLE_MS = 80;
const TOUCHES = /^(?:piece|mount|part|lathe|job|reading)\./;

/** The stacks that the shop advises for a part, asked again when the pegboard, the part or a lathe changes. */
export function useAdvice(file: JobFile, part: Part): { advice: StackAdvice | null; trouble: Trouble | null } {
  const [advice, setAdvice] = useState<StackAdvice | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const change = lastChange.value;
  const seq = change && TOUCHES.test(change.kind) ? change.seq : 0;
  useEffect(() => {
    let stale = false;
    const ask = () =>
      send({ method: 'get', path: `/jobs/${file.job.id}/parts/${part.id}/stacks`, query: { count: COUNT } }).then(
        (answer) => {
          if (stale) return;
          setAdvice(answer as StackAdvice);
          setTrouble(null);
        },
        (cause) => {
          if (!stale) setTrouble(troubleOf(cause));
        },
      );
    const timer = setTimeout(ask, advice ? SETTLE_MS : 0);
    return () => {
      stale = true;
      clearTimeout(timer);
    };
  }, [file.job.id, file.job.lathe_id, part.id, part.version, seq]);
  return { advice, trouble };
}
