import { useEffect, useState } from 'preact/hooks';
import { fillPath, send } from '../api/client';
import type { JobFile, Part, RefitAdvice } from '../api/schema';
import { type Trouble, troubleOf } from '../controls/saving';
import { lastChange } from '../state/connection';

const SETTLE_MS = 120;
const TOUCHES = /^(?:part|plan|cut|reading|refit|taper_plate|settings)/;

/** How the shop says that a part goes back on its hub; asked again when what that rests on changes. */
export function useRefitAdvice(file: JobFile, part: Part): { advice: RefitAdvice | null; trouble: Trouble | null } {
  const [advice, setAdvice] = useState<RefitAdvice | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const change = lastChange.value;
  const seq = change && TOUCHES.test(change.kind) ? change.seq : 0;
  useEffect(() => {
    let stale = false;
    const path = fillPath('/jobs/{job_id}/parts/{part_id}/refit', { job_id: file.job.id, part_id: part.id });
    const ask = () =>
      send({ method: 'get', path }).then(
        (answer) => {
          if (stale) return;
          setAdvice(answer as RefitAdvice);
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
  }, [file.job.id, part.id, part.version, seq]);
  return { advice, trouble };
}
