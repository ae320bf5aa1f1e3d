import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { fillPath, send } from '../api/client';
import type { JobFile, Part, PlanAdvice, PlannedPass } from '../api/schema';
import { type Trouble, troubleOf } from '../controls/saving';
import { dropDraft, keepDraft, readDraft } from '../state/drafts';
import { everyFrame, Latest } from './latest';
import { same, settingsOf } from './what_if';

interface Draft {
  insert_id: string;
  passes: PlannedPass[];
}

const NOTHING: Draft = { insert_id: '', passes: [] };

/** The computed plan of one rotor, what was made of it here, and what the shop foresees of that. */
export function usePlan(file: JobFile, part: Part, start_insert: string) {
  const name = `plan.${part.id}`;
  const kept = useRef(readDraft(localStorage, name, NOTHING));
  const [insert_id, setInsert] = useState(kept.current.insert_id || start_insert);
  const [computed, setComputed] = useState<PlanAdvice | null>(null);
  const [passes, setPasses] = useState<PlannedPass[]>([]);
  const [foreseen, setForeseen] = useState<PlanAdvice | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const values = { job_id: file.job.id, part_id: part.id };
  const path = fillPath('/jobs/{job_id}/parts/{part_id}', values);
  const insert = useRef(insert_id);
  /** A drum by itself, not to the size of its partner. */
  const [own, setOwn] = useState(false);
  insert.current = insert_id;

  const asking = useMemo(
    () =>
      new Latest<PlannedPass[], PlanAdvice>(
        async (wanted) => {
          const body = { insert_id: insert.current || null, passes: wanted };
          return (await send({ method: 'post', path: `${path}/foresight`, body })) as PlanAdvice;
        },
        (answer) => {
          setTrouble(null);
          setForeseen(answer);
        },
        (cause) => setTrouble(troubleOf(cause)),
      ),
    [path],
  );
  const wantAtFrame = useMemo(
    () => everyFrame<PlannedPass[]>((wanted) => asking.want(wanted), requestAnimationFrame.bind(window)),
    [asking],
  );

  const read = async () => {
    try {
      const query = { ...(insert.current ? { insert_id: insert.current } : {}), ...(own ? { own_size: true } : {}) };
      const answer = (await send({ method: 'get', path: `${path}/plan`, query })) as PlanAdvice;
      setTrouble(null);
      setComputed(answer);
      const mine = kept.current.passes;
      const start = mine.length > 0 ? mine : settingsOf(answer.passes);
      setPasses(start);
      if (mine.length > 0 && !same(mine, answer.passes)) asking.want(mine);
      else setForeseen(answer);
    } catch (cause) {
      setTrouble(troubleOf(cause));
    }
  };
  useEffect(() => {
    void read();
    return () => asking.drop();
  }, [path, insert_id, part.version, own]);

  const keep = (draft: Draft) => {
    kept.current = draft;
    keepDraft(localStorage, name, draft);
  };
  const change = (next: PlannedPass[]) => {
    setPasses(next);
    keep({ insert_id, passes: next });
    if (next.length > 0) wantAtFrame(next);
  };
  return {
    insert_id,
    computed,
    own,
    chooseOwn: (wanted: boolean) => {
      keep({ insert_id, passes: [] });
      setOwn(wanted);
    },
    passes,
    foreseen,
    trouble,
    changed: computed !== null && !same(passes, computed.passes),
    change,
    back: () => {
      if (!computed) return;
      asking.drop();
      setPasses(settingsOf(computed.passes));
      setForeseen(computed);
      kept.current = { insert_id, passes: [] };
      keepDraft(localStorage, name, kept.current);
    },
    chooseInsert: (id: string) => {
      keep({ insert_id: id, passes: kept.current.passes });
      setInsert(id);
    },
    settled: () => dropDraft(localStorage, name),
    read,
  };
}

export type Planning = ReturnType<typeof usePlan>;
