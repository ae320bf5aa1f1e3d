import { useEffect, useState } from 'preact/hooks';
import { call } from '../api/client';
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
      call('get', '/jobs/{job_id}/parts/{part_id}/stacks', {
        path: { job_id: file.job.id, part_id: part.id },
        query: { count: COUNT },
      }).then(
        (answer) => {
          if (stale) return;
          setAdvice(answer);
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
