import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Refused } from '../api/client';
import { type Trouble, troubleOf } from '../controls/saving';
import { place } from '../route/router';
import { practiceNews } from '../state/connection';
import { person } from '../state/shop';
import { ActQueue } from './act_queue';
import { readRun, sendAct } from './api';
import type { Act, ActAnswer, PracticeRun } from './model';
import { withAct } from './readings';

/** An act that the bench did not let happen, and why. */
export interface Refusal {
  act: Act;
  message: string;
}

export interface AtBench {
  run: PracticeRun;
  /** Does an act; a stop goes `first`. */
  act: (act: Act, how?: { first?: boolean }) => void;
  /** Nothing is on its way to the shop. */
  idle: boolean;
  isIdle: () => boolean;
  /** The shop does not answer; what was done waits. */
  lost: boolean;
  refusal: Refusal | null;
  /** Counts the answers: whatever is drawn from the shop's own picture asks anew. */
  answers: number;
}

/** News of a run so soon after an act of this page are news of that act; those of other tablets come later, or as a refusal. */
const OWN_MS = 2500;

/** The run with this id, kept as the shop has it. */
export function useRun(id: string): { at: AtBench | null; trouble: Trouble | null; again: () => void } {
  const [run, setRun] = useState<PracticeRun | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [state, setState] = useState({ idle: true, lost: false, answers: 0 });
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const latest = useRef<PracticeRun | null>(null);
  const acted_ms = useRef(Number.NEGATIVE_INFINITY);
  const keep = (next: PracticeRun) => {
    latest.current = next;
    setRun(next);
  };
  const read = async () => {
    try {
      keep(await readRun(id));
      setTrouble(null);
    } catch (cause) {
      setTrouble(troubleOf(cause));
    }
  };
  const answered = (act: Act, { number, outcome, view }: ActAnswer) => {
    const now = latest.current;
    if (!now) return;
    keep({ ...now, view, acts: withAct(now.acts, { number, act, outcome }) });
    setRefusal(null);
    acted_ms.current = performance.now();
    setState((old) => ({ ...old, answers: old.answers + 1 }));
    if (view.ended) void read();
  };
  const queue = useMemo(
    () =>
      new ActQueue({
        send: (number, act) => sendAct(id, number, act),
        known: () => latest.current?.view.acts ?? 0,
        onAnswer: answered,
        onRefused: (act: Act, cause: Refused) => {
          setRefusal({ act, message: cause.body.message });
          if (cause.body.code === 'ended') void read();
        },
        onTaken: read,
        onLost: (lost) => setState((old) => (old.lost === lost ? old : { ...old, lost })),
        onIdle: (idle) => setState((old) => (old.idle === idle ? old : { ...old, idle })),
        later: (work, ms) => setTimeout(work, ms),
      }),
    [id],
  );
  useEffect(() => {
    void read();
    return () => leave(queue, latest.current);
  }, [id]);
  const news = practiceNews.value;
  useEffect(() => {
    const own = !queue.idle || performance.now() - acted_ms.current < OWN_MS;
    if (news.run_ids.includes(id) && !own) void read();
  }, [news]);
  const at: AtBench | null = run && {
    run,
    act: (act, how) => queue.do(act, how),
    isIdle: () => queue.idle,
    refusal,
    ...state,
  };
  return { at, trouble, again: () => void read() };
}

/** Whoever goes elsewhere in the page while the spindle turns walks away from it. */
function leave(queue: ActQueue, run: PracticeRun | null): void {
  const own = run !== null && run.person_id === person.value?.id;
  const gone = own && !place.value.path.endsWith(run.id);
  if (gone && run.view.rpm > 0 && !run.view.ended) queue.do({ do: 'walk_away' }, { first: true });
  queue.close();
}
