import { useEffect, useRef, useState } from 'preact/hooks';
import { type Trouble, troubleOf } from '../controls/saving';

export interface Answered<A> {
  answer: A | null;
  trouble: Trouble | null;
}

/** What the shop answers to a question, asked again when what it rests on changes; the last answer stands meanwhile. */
export function useAnswer<A>(ask: () => Promise<A>, rests_on: readonly unknown[]): Answered<A> {
  const [answered, setAnswered] = useState<Answered<A>>({ answer: null, trouble: null });
  const asked = useRef(0);
  useEffect(() => {
    asked.current += 1;
    const mine = asked.current;
    ask().then(
      (answer) => {
        if (mine === asked.current) setAnswered({ answer, trouble: null });
      },
      (cause) => {
        if (mine === asked.current) setAnswered((last) => ({ ...last, trouble: troubleOf(cause) }));
      },
    );
  }, [...rests_on]);
  return answered;
}
