import { useEffect, useRef, useState } from 'preact/hooks';
import { call } from '../api/client';
import type { JobLine } from '../api/schema';
import { Field } from '../controls/field';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { calendarDay } from '../show/time';
import { words } from '../words';
import { Line } from './line';

const PAGE = 12;
const TYPING_MS = 220;

/** Search over the finished jobs: the shop looks, the page waits until the typing pauses. */
export function Finished({ seq }: { seq: number }) {
  const [text, setText] = useState('');
  const [lines, setLines] = useState<JobLine[]>([]);
  const [total, setTotal] = useState<number | null>(null);
  const { trouble, run } = useSaving();
  const asked = useRef(0);
  const read = (offset: number) =>
    run(async () => {
      asked.current += 1;
      const mine = asked.current;
      const query = { state: 'sealed' as const, words: text.trim(), limit: PAGE, offset };
      const page = await call('get', '/jobs', { query });
      if (mine !== asked.current) return;
      setLines(offset === 0 ? page.lines : [...lines, ...page.lines]);
      setTotal(page.total);
    });
  useEffect(() => {
    const timer = setTimeout(() => read(0), total === null ? 0 : TYPING_MS);
    return () => clearTimeout(timer);
  }, [text.trim(), seq]);
  return (
    <section class="finished" aria-label={words.board.finished}>
      <Field label={words.board.search} hint={words.board.search_hint} value={text} onInput={setText} />
      <p class="soft small" role="status">
        {total === null ? words.board.looking : total === 0 ? words.board.found_none : words.board.found(total)}
      </p>
      <TroubleLine text={trouble?.message} />
      <ul class="jobs jobs-finished">
        {lines.map((line) => (
          <li key={line.job.id}>
            <Line line={line} end={line.job.sealed_at ? words.board.sealed_on(calendarDay(line.job.sealed_at)) : ''} />
          </li>
        ))}
      </ul>
      {total !== null && lines.length < total ? (
        <button type="button" onClick={() => read(lines.length)}>
          {words.board.more}
        </button>
      ) : null}
    </section>
  );
}
