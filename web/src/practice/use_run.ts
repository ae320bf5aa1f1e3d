import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Refused } from '../api/client';
import { type Trouble, troubleOf } from '../controls/saving';
import { place } from '../route/router';
import { practiceNews } from '../state/connection';
import { person } from '../state/shop';
import { words } from '../words';
import { ActQueue } from './act_queue';
import { readRun, sendAct } from './api';
import type { Act, ActAnswer, PracticeRun } from './model';
import { isOlder, withAct } from './readings';
import { turnsAfter } from './turning';

/** An act that the bench did not let happen, and why. */
export interface Refusal {
  act: Act;
  message: string;
  /** Said on every stage: it may have been tried on any. */
  anywhere: boolean;
}

export interface AtBench {
  run: PracticeRun;
  /** Does an act; a stop goes `first`. */
  act: (act: Act, how?: { first?: boolean }) => void;
  /** Nothing is on its way to the shop. */
  idle: boolean;
  isIdle: () => boolean;
  /** What is on its way to the shop or waits for it, in order. */
  pending: readonly Act[];
  /** The shop does not answer; what was done waits. */
  lost: boolean;
  refusal: Refusal | null;
  /** Counts the answers: whatever is drawn from the shop's own picture asks anew. */
  answers: number;
}

const ANYWHERE: readonly Act['do'][] = ['spindle', 'turns'];

/** News of a run so soon after an act of this page are news of that act; those of other tablets come later, or as a refusal. */
const OWN_MS = 2500;

/** The run with this id, kept as the shop has it. */
export function useRun(id: string): { at: AtBench | null; trouble: Trouble | null; again: () => void } {
  const [run, setRun] = useState<PracticeRun | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [state, setState] = useState({ idle: true, lost: false, answers: 0, pending: [] as readonly Act[] });
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const latest = useRef<PracticeRun | null>(null);
  const acted_ms = useRef(Number.NEGATIVE_INFINITY);
  const keep = (next: PracticeRun) => {
    latest.current = next;
    setRun(next);
  };
  /** What comes late and knows less than what is held is dropped, unless the shop's word is to stand. */
  const read = async ({ anyway = false } = {}) => {
    try {
      const next = await readRun(id);
      if (anyway || !isOlder(next, latest.current)) keep(next);
      setTrouble(null);
    } catch (cause) {
      setTrouble(troubleOf(cause));
    }
  };
  const answered = (act: Act, { number, outcome, view }: ActAnswer) => {
    const now = latest.current;
    if (!now) return;
    keep({ ...now, view, acts: withAct(now.acts, { number, act, outcome }) });
    if (act.do !== 'turns') setRefusal(null);
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
          setRefusal({ act, message: cause.body.message, anywhere: ANYWHERE.includes(act.do) });
          if (cause.body.code === 'ended') void read();
        },
        onTaken: () => read({ anyway: true }),
        onDropped: (act) => setRefusal({ act, message: words.practice_bench.other_hand, anywhere: true }),
        onPending: (pending) => setState((old) => ({ ...old, pending })),
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
  useSeenAgain(() => {
    if (queue.idle) void read();
  });
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

/** What is to be done when the page comes into sight again: news are not heard while it is out of it. */
function useSeenAgain(work: () => void): void {
  const latest = useRef(work);
  latest.current = work;
  useEffect(() => {
    const hear = () => {
      if (document.visibilityState === 'visible') latest.current();
    };
    document.addEventListener('visibilitychange', hear);
    return () => document.removeEventListener('visibilitychange', hear);
  }, []);
}

/** Whoever goes elsewhere in the page while the spindle turns, or is about to, walks away from it; a stop goes before. */
function leave(queue: ActQueue, run: PracticeRun | null): void {
  const own = run !== null && run.person_id === person.value?.id;
  const gone = own && !place.value.path.endsWith(run.id);
  if (gone && !run.view.ended && turnsAfter(run.view.rpm, queue.pending)) queue.do({ do: 'walk_away' });
  queue.close();
}
