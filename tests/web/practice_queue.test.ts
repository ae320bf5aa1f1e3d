import { describe, expect, it } from 'vitest';
import { Refused, Unreachable } from '../../web/src/api/client';
import { ActQueue } from '../../web/src/practice/act_queue';
import { marksOnWay } from '../../web/src/practice/dial';
import type { Act, ActAnswer, BenchView } from '../../web/src/practice/model';

const view = (acts: number): BenchView => ({ acts }) as BenchView;
const nothing = { took_s: 0, shown_mm: null, angles_deg: [], shown_um: [], seen: [], hub_runout_um: null };
const refused = (code: string) => new Refused(409, { code, field: 'do', message: `refused: ${code}` });

/** A shop that keeps acts by their number: one that comes twice is there once. It can lose answers, and refuse. */
class BenchOfTest {
  kept: Act[] = [];
  arrivals: number[] = [];
  losesNext = 0;
  awayFor = 0;
  refuses: string | null = null;

  send = async (number: number, act: Act): Promise<ActAnswer> => {
    this.arrivals.push(number);
    if (this.awayFor-- > 0) throw new Unreachable('away');
    if (this.refuses) throw refused(this.refuses);
    const there = this.kept[number - 1];
    if (there && JSON.stringify(there) !== JSON.stringify(act)) throw refused('number_taken');
    if (!there) this.kept[number - 1] = act;
    if (this.losesNext-- > 0) throw new Unreachable('the answer got lost');
    return { number, outcome: nothing, view: view(this.kept.length) };
  };
}

function atBench() {
  const bench = new BenchOfTest();
  const seen = { known: 0, answers: [] as Act[], refused: [] as string[], lost: [] as boolean[], reread: 0 };
  const told = { dropped: [] as string[], pending: [] as readonly Act[] };
  const queue = new ActQueue({
    send: bench.send,
    known: () => seen.known,
    onAnswer: (act, answer) => {
      seen.known = answer.view.acts;
      seen.answers.push(act);
    },
    onRefused: (_act, cause) => seen.refused.push(cause.body.code),
    onTaken: async () => {
      seen.reread += 1;
      seen.known = bench.kept.length;
    },
    onDropped: (act) => told.dropped.push(act.do),
    onPending: (acts) => {
      told.pending = acts;
    },
    onLost: (lost) => seen.lost.push(lost),
    onIdle: () => undefined,
    later: (work) => queueMicrotask(work),
  });
  return { bench, seen, told, queue };
}

const settled = async () => {
  for (let i = 0; i < 40; i += 1) await Promise.resolve();
};

describe('what a hand does at the bench', () => {
  it('goes one after the other, each under the number after the last', async () => {
    const { bench, seen, queue } = atBench();
    queue.do({ do: 'look' });
    queue.do({ do: 'wipe' });
    queue.do({ do: 'unmount' });
    await settled();
    expect(bench.arrivals).toEqual([1, 2, 3]);
    expect(bench.kept.map((act) => act.do)).toEqual(['look', 'wipe', 'unmount']);
    expect(seen.answers).toHaveLength(3);
    expect(queue.idle).toBe(true);
  });

  it('is asked for again under the same number where its answer was lost, and is done once', async () => {
    const { bench, seen, queue } = atBench();
    bench.losesNext = 2;
    queue.do({ do: 'turns', turns: 3 });
    queue.do({ do: 'look' });
    await settled();
    expect(bench.arrivals).toEqual([1, 1, 1, 2]);
    expect(bench.kept.map((act) => act.do)).toEqual(['turns', 'look']);
    expect(seen.lost).toEqual([true, true, false, false]);
  });

  it('waits while the shop is away, and goes through when it is back', async () => {
    const { bench, queue } = atBench();
    bench.awayFor = 3;
    queue.do({ do: 'wipe' });
    await settled();
    expect(bench.kept.map((act) => act.do)).toEqual(['wipe']);
  });

  it('uses no number where it was refused', async () => {
    const { bench, seen, queue } = atBench();
    bench.refuses = 'not_now';
    queue.do({ do: 'feed', mm_per_rev: 0.1 });
    await settled();
    bench.refuses = null;
    queue.do({ do: 'look' });
    await settled();
    expect(seen.refused).toEqual(['not_now']);
    expect(bench.arrivals).toEqual([1, 1]);
    expect(bench.kept.map((act) => act.do)).toEqual(['look']);
  });

  it('is dropped with all that waits where another tablet took its number, and the run is read anew', async () => {
    const { bench, seen, told, queue } = atBench();
    bench.kept = [{ do: 'look' }, { do: 'wipe' }];
    queue.do({ do: 'unmount' });
    queue.do({ do: 'look' });
    await settled();
    expect(seen.reread).toBe(1);
    expect(told.dropped).toEqual(['unmount']);
    expect(seen.answers).toEqual([]);
    queue.do({ do: 'unmount' });
    await settled();
    expect(bench.kept.map((act) => act.do)).toEqual(['look', 'wipe', 'unmount']);
  });

  it('lets a stop go ahead of what waits', async () => {
    const { bench, queue } = atBench();
    queue.do({ do: 'turns', turns: 1 });
    queue.do({ do: 'look' });
    queue.do({ do: 'spindle', rpm: 0 }, { first: true });
    await settled();
    expect(bench.kept.map((act) => act.do)).toEqual(['turns', 'spindle', 'look']);
  });

  it('drops what waits behind a refusal, but never a stop', async () => {
    const { bench, seen, queue } = atBench();
    bench.refuses = 'not_now';
    queue.do({ do: 'unmount' });
    queue.do({ do: 'mount_part', pieces: [], turn_deg: 0, nut_tight: true });
    queue.do({ do: 'spindle', rpm: 0 });
    await settled();
    expect(seen.refused).toEqual(['not_now', 'not_now']);
    expect(bench.arrivals).toHaveLength(2);
  });

  it('asks no more for a lost answer once the bench is left', async () => {
    const { bench, queue } = atBench();
    bench.awayFor = 1000;
    queue.do({ do: 'look' });
    queue.close();
    await settled();
    const arrived = bench.arrivals.length;
    expect(arrived).toBeGreaterThan(0);
    bench.awayFor = 0;
    queue.do({ do: 'wipe' });
    await settled();
    expect(bench.arrivals).toHaveLength(arrived);
    expect(bench.kept).toEqual([]);
  });

  it('says nothing of a turn of the spindle that another tablet was ahead of', async () => {
    const { bench, seen, told, queue } = atBench();
    bench.kept = [{ do: 'look' }];
    queue.do({ do: 'turns', turns: 2 });
    await settled();
    expect(seen.reread).toBe(1);
    expect(told.dropped).toEqual([]);
  });

  it('does a stop all the same where another tablet took its number', async () => {
    const { bench, told, queue } = atBench();
    bench.kept = [{ do: 'look' }];
    queue.do({ do: 'spindle', rpm: 0 });
    queue.do({ do: 'wipe' });
    await settled();
    expect(bench.kept.map((act) => act.do)).toEqual(['look', 'spindle']);
    expect(told.dropped).toEqual(['wipe']);
  });

  it('does not keep a start that waits behind a refusal', async () => {
    const { bench, seen, queue } = atBench();
    bench.refuses = 'not_now';
    queue.do({ do: 'unmount' });
    queue.do({ do: 'spindle', rpm: 100 });
    await settled();
    expect(seen.refused).toEqual(['not_now']);
  });
});

describe('a dial that is turned faster than the shop answers', () => {
  const turn = (marks: number): Act => ({ do: 'turn_dial', side: 'outboard', marks });

  it('goes as few acts, all of it before the lock that follows', async () => {
    const { bench, queue } = atBench();
    for (let i = 0; i < 7; i += 1) queue.do(turn(1));
    queue.do({ do: 'lock_tool', side: 'outboard', locked: true });
    queue.do(turn(2));
    await settled();
    const lock = { do: 'lock_tool', side: 'outboard', locked: true };
    expect(bench.kept).toEqual([turn(1), turn(6), lock, turn(2)]);
  });

  it('counts its marks as on their way until they are answered', async () => {
    const { seen, told, queue } = atBench();
    queue.do(turn(3));
    queue.do(turn(4));
    queue.do({ do: 'turn_dial', side: 'inboard', marks: 9 });
    expect(marksOnWay(told.pending, 'outboard')).toBe(7);
    await settled();
    expect(seen.answers).toHaveLength(3);
    expect(marksOnWay(told.pending, 'outboard')).toBe(0);
  });

  it('loses none of them where the bench is left', async () => {
    const { bench, queue } = atBench();
    queue.do(turn(1));
    queue.do(turn(5));
    queue.close();
    await settled();
    expect(bench.kept).toEqual([turn(1), turn(5)]);
  });

  it('goes no further where it was turned there and back', async () => {
    const { bench, queue } = atBench();
    queue.do({ do: 'look' });
    queue.do(turn(5));
    queue.do(turn(-5));
    await settled();
    expect(bench.kept).toEqual([{ do: 'look' }]);
  });
});
