import { effect } from '@preact/signals';
import { useEffect, useRef, useState } from 'preact/hooks';
import { type Trouble, troubleOf } from '../controls/saving';
import { heard, lastChange } from './connection';

export interface Answered<A> {
  answer: A | null;
  trouble: Trouble | null;
}

/**
 * What the shop answers to a question, asked again when what it rests on changes; the last answer stands meanwhile.
 * Where changes come in quick succession, they are let settle before it is asked again.
 */
export function useAnswer<A>(ask: () => Promise<A>, rests_on: readonly unknown[], settle_ms = 0): Answered<A> {
  const [answered, setAnswered] = useState<Answered<A>>({ answer: null, trouble: null });
  useEffect(() => {
    let stale = false;
    const asking = () =>
      ask().then(
        (answer) => {
          if (!stale) setAnswered({ answer, trouble: null });
        },
        (cause) => {
          if (!stale) setAnswered((last) => ({ ...last, trouble: troubleOf(cause) }));
        },
      );
    const timer = setTimeout(asking, answered.answer ? settle_ms : 0);
    return () => {
      stale = true;
      clearTimeout(timer);
    };
  }, [...rests_on]);
  return answered;
}

const SETTLE_MS = 150;

/** One question that is asked again and again: which of its answers is the newest, and whether another is due. */
interface Asking {
  question: number;
  asked: number;
  shown: number;
  underway: number;
  due: boolean;
  timer: ReturnType<typeof setTimeout> | undefined;
}

export interface StandingAnswer<A> extends Answered<A> {
  /** Asks at once, as after something was saved. */
  again: () => void;
  /** The same, for whoever waits until the answer is there; throws where there is none. */
  reread: () => Promise<void>;
}

/**
 * What the shop answers to a standing question, asked again after each change of these kinds. Changes in quick succession
 * are let settle, and wait for an answer that is under way instead of doing without it: however many they are, what is
 * shown is never older than one answer. Another question leaves answers to the one before aside.
 */
export function useStanding<A>(
  ask: () => Promise<A>,
  kinds: RegExp,
  { of: question = [], settle_ms = SETTLE_MS }: { of?: readonly unknown[]; settle_ms?: number } = {},
): StandingAnswer<A> {
  const [answered, setAnswered] = useState<Answered<A>>({ answer: null, trouble: null });
  const asking = useRef<Asking>({ question: 0, asked: 0, shown: 0, underway: 0, due: false, timer: undefined });
  const latest = useRef(ask);
  latest.current = ask;
  const now = asking.current;

  const reread = async (): Promise<void> => {
    clearTimeout(now.timer);
    now.timer = undefined;
    now.due = false;
    now.underway += 1;
    now.asked += 1;
    const [mine, of] = [now.asked, now.question];
    const show = (found: (last: Answered<A>) => Answered<A>) => {
      if (of !== now.question || mine < now.shown) return;
      now.shown = mine;
      setAnswered(found);
    };
    try {
      const answer = await latest.current();
      show(() => ({ answer, trouble: null }));
    } catch (cause) {
      show((last) => ({ ...last, trouble: troubleOf(cause) }));
      throw cause;
    } finally {
      now.underway -= 1;
      if (now.due && now.underway === 0) settle();
    }
  };
  const again = () => void reread().catch(() => undefined);
  const settle = () => {
    if (now.underway > 0) now.due = true;
    else now.timer ??= setTimeout(again, settle_ms);
  };

  useEffect(() => {
    again();
    return () => {
      now.question += 1;
      now.due = false;
      clearTimeout(now.timer);
      now.timer = undefined;
    };
  }, [...question]);
  useEffect(() => {
    const from = { seq: lastChange.peek()?.seq ?? 0, heard: heard.peek() };
    return effect(() => {
      const change = lastChange.value;
      const isNew = change !== null && (change.seq ?? 0) > from.seq;
      const isBack = heard.value && !from.heard;
      from.heard = heard.value;
      if (isNew) from.seq = change.seq ?? 0;
      if ((isNew && kinds.test(change.kind)) || isBack) settle();
    });
  }, []);
  return { ...answered, again, reread };
}

const NOTHING = { answer: null, trouble: null };

/**
 * The answer to a question that is being typed, asked once it has stood for a while: nothing until then, whatever was
 * answered to an earlier one, and nothing to no question.
 */
export function useAnswerTo<A>(question: string | null, ask: () => Promise<A>, wait_ms = 0): Answered<A> {
  const [last, setLast] = useState<Answered<A> & { to: string | null }>({ to: null, ...NOTHING });
  useEffect(() => {
    if (question === null) return undefined;
    let stale = false;
    const keep = (found: Answered<A>) => {
      if (!stale) setLast({ to: question, ...found });
    };
    const asking = () =>
      ask().then(
        (answer) => keep({ answer, trouble: null }),
        (cause) => keep({ answer: null, trouble: troubleOf(cause) }),
      );
    const timer = setTimeout(asking, wait_ms);
    return () => {
      stale = true;
      clearTimeout(timer);
    };
  }, [question]);
  return question !== null && last.to === question ? last : NOTHING;
}

/** The shop's last change, where it is of one of these kinds. */
export function lastOf(kinds: RegExp): number {
  const change = lastChange.value;
  return change && kinds.test(change.kind) ? (change.seq ?? 0) : 0;
}
