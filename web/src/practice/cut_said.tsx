import { useEffect, useRef, useState } from 'preact/hooks';
import { words } from '../words';
import type { BenchView, Side } from './model';
import type { Touch } from './spoken';
import { Teller, type Told } from './teller';
import { touchOf } from './touch';

/** What both tools do, for whoever does not see it: one sentence at a time. */
export function CutSaid({ view }: { view: BenchView }) {
  const { cut: said, side: sides } = words.practice_bench;
  const now: Record<Side, Touch> = { outboard: touchOf(view.outboard), inboard: touchOf(view.inboard) };
  const teller = useRef<Teller | null>(null);
  teller.current ??= new Teller(now);
  const [told, setTold] = useState<Told | null>(null);
  const [asked, setAsked] = useState(0);
  useEffect(() => {
    const next = teller.current?.next(now, performance.now());
    if (!next) return;
    if ('side' in next) setTold(next);
    const again = setTimeout(() => setAsked(asked + 1), 'side' in next ? 0 : next.in_ms);
    return () => clearTimeout(again);
  }, [now.outboard, now.inboard, asked]);
  return (
    <p class="heard" role="status">
      {told ? said.told(sides[told.side], said.touch[told.touch]) : ''}
    </p>
  );
}
