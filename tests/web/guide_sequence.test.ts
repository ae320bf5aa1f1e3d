import { describe, expect, it } from 'vitest';
import { type BenchEvent, eventsOf } from '../../web/src/guide/events';
import { cutting_ms, type GuideState, guideState, type Task } from '../../web/src/guide/sequence';

const task: Task = { passes: 2, outboard: true, inboard: true, recorded_before: 0, recorded: 0 };

/** Events as a hand ticks them, a second apart. */
class Hand {
  events: BenchEvent[] = [];
  now = 1_000_000;

  constructor(readonly task_: Task = task) {}

  get state(): GuideState {
    return guideState(this.task_, this.events);
  }

  say(step: string, pass: number, event: BenchEvent['event'], detail = '') {
    this.now += 1000;
    const id = String(this.events.length);
    this.events.push({ id, step, pass, event, detail, at_ms: this.now, waiting: false });
    return this;
  }

  /** Ticks the step that is asked for, and begins the pass with the feed as the page does. */
  tick(detail = '') {
    const at = this.state.at;
    if (!at) throw new Error('nothing is left to tick');
    this.say(at.word, at.pass, 'done', detail);
    if (at.word === 'feed_on') this.say('pass', at.pass, 'begun');
    return this;
  }

  tickTo(word: string) {
    for (let i = 0; i < 60 && this.state.at?.word !== word; ++i) this.tick();
    if (this.state.at?.word !== word) throw new Error(`never came to ${word}`);
    return this;
  }
}

const named = (state: GuideState) => state.steps.map((one) => `${one.word} ${one.pass}`);

describe('the guided cut of two passes', () => {
  it('touches off once, and measures between the passes', () => {
    expect(named(new Hand().state)).toEqual([
      ...['edges 0', 'band_on 0', 'guards 0'],
      ...['machine_on 1', 'heads_open 1', 'run_in 1'],
      ...['touch_outboard 1', 'dial_outboard 1', 'touch_inboard 1', 'dial_inboard 1'],
      ...['inner_edge 1', 'marks 1', 'lock 1', 'feed_on 1', 'pass 1', 'feed_off 1', 'machine_off 1', 'measure 1'],
      ...['machine_on 2', 'inner_edge 2', 'marks 2', 'lock 2', 'feed_on 2', 'pass 2', 'feed_off 2', 'machine_off 2'],
    ]);
  });
  it('leaves alone a face of which nothing is to come off', () => {
    const one = guideState({ ...task, inboard: false }, []);
    expect(named(one)).toContain('touch_outboard 1');
    expect(named(one)).not.toContain('touch_inboard 1');
    expect(named(one)).not.toContain('dial_inboard 1');
  });
  it('counts its passes on from those that the rotor had before', () => {
    const later = guideState({ ...task, recorded_before: 3, recorded: 3 }, []);
    expect(later.attempts.map((one) => one.number)).toEqual([4, 5]);
  });
  it('ends when the last step is ticked', () => {
    const hand = new Hand();
    for (let i = 0; hand.state.at; ++i) {
      expect(i).toBeLessThan(40);
      hand.tick();
    }
    expect(hand.state.place).toBe(hand.state.steps.length);
  });
});

describe('the clock of a pass', () => {
  it('runs from the feed, stands while paused, and stands for good at the end', () => {
    const hand = new Hand().tickTo('pass');
    const began = hand.now;
    expect(cutting_ms(hand.state.run as never, began + 7000)).toBe(7000);
    hand.now = began + 9000;
    hand.say('pass', 1, 'paused');
    expect(hand.state.paused).toBe(true);
    expect(cutting_ms(hand.state.run as never, began + 60_000)).toBe(10_000);
    hand.now = began + 29_000;
    hand.say('pass', 1, 'resumed');
    expect(hand.state.paused).toBe(false);
    expect(cutting_ms(hand.state.run as never, began + 35_000)).toBe(15_000);
    hand.now = began + 39_000;
    hand.say('pass', 1, 'done');
    expect(hand.state.at?.word).toBe('feed_off');
    expect(cutting_ms(hand.state.runs.get(1) as never, began + 999_000)).toBe(20_000);
  });
  it('counts a pause twice asked for once, and an end within a pause without the pause', () => {
    const hand = new Hand().tickTo('pass');
    const began = hand.now;
    hand.say('pass', 1, 'paused').say('pass', 1, 'paused').say('pass', 1, 'stopped');
    expect(cutting_ms(hand.state.runs.get(1) as never, began + 999_000)).toBe(1000);
  });
});

describe('a mistaken tick', () => {
  it('is taken back, and its step asked for again', () => {
    const hand = new Hand().tick().tick();
    expect(hand.state.undo?.word).toBe('band_on');
    hand.say('band_on', 0, 'undone');
    expect(hand.state.at?.word).toBe('band_on');
    expect(hand.state.undo?.word).toBe('edges');
  });
  it('at the end of a pass lets the pass run on', () => {
    const hand = new Hand().tickTo('pass').tick();
    expect(hand.state.undo?.word).toBe('pass');
    hand.say('pass', 1, 'undone');
    expect(hand.state.at?.word).toBe('pass');
    expect(hand.state.run?.outcome).toBeNull();
    expect(hand.state.runs.get(1)?.ended_ms).toBeNull();
  });
  it('at its beginning takes the pass and the feed back', () => {
    const hand = new Hand().tickTo('pass');
    expect(hand.state.undo?.word).toBe('pass');
    hand.say('pass', 1, 'undone').say('feed_on', 1, 'undone');
    expect(hand.state.at?.word).toBe('feed_on');
    expect(hand.state.run).toBeNull();
    expect(hand.tick().state.at?.word).toBe('pass');
  });
  it('is not taken back past a pass that is written down', () => {
    const hand = new Hand({ ...task, recorded: 1 }).tickTo('feed_off').tick();
    expect(hand.state.at?.word).toBe('machine_off');
    expect(hand.state.undo).toBeNull();
    hand.tick();
    expect(hand.state.undo?.word).toBe('machine_off');
  });
});

describe('a pass that is stopped', () => {
  const stopped = () => new Hand().tickTo('pass').say('pass', 1, 'stopped');
  it('asks how it goes on before anything else', () => {
    const { state } = stopped();
    expect(state.at).toMatchObject({ word: 'stopped', pass: 1 });
    expect(named(state).at(-1)).toBe('stopped 1');
    expect(state.undo?.word).toBe('pass');
  });
  it('goes on as the pass when the stop is taken back', () => {
    expect(stopped().say('pass', 1, 'undone').state.at?.word).toBe('pass');
  });
  it('is cut again from the inner edge with the dials as they stand', () => {
    const { state } = stopped().tick('edge');
    expect(state.at).toMatchObject({ word: 'machine_on', pass: 2 });
    expect(state.attempts[1]).toEqual({ number: 2, index: 0, from: 'edge', again: true });
    expect(named(state)).not.toContain('touch_outboard 2');
    expect(state.attempts.map((one) => one.index)).toEqual([0, 0, 1]);
  });
  it('is touched off anew where the part was moved', () => {
    const { state } = stopped().tick('touch');
    expect(named(state)).toContain('touch_outboard 2');
    expect(state.attempts[1]?.again).toBe(false);
  });
  it('ends the cut where that is chosen', () => {
    expect(stopped().tick('end').state.at).toBeNull();
  });
});

describe('the events of the bench', () => {
  const stored = (id: string, received_at: string, step = 'band_on') => ({
    id,
    job_id: 'j',
    part_id: 'p',
    phase: 'cut' as const,
    step,
    pass: 0,
    event: 'done' as const,
    detail: '',
    by_person_id: 'a',
    taken_at: received_at,
    received_at,
  });
  const waiting = (id: string, state: 'waiting' | 'refused' = 'waiting', about = 'step') => ({
    id: `entry-${id}`,
    made_at: 0,
    about,
    job_id: 'j',
    sent: {
      method: 'post' as const,
      path: '',
      body: {
        id,
        part_id: 'p',
        phase: 'cut',
        step: 'guards',
        pass: 0,
        event: 'done',
        detail: '',
        taken_at: '2026-01-02T00:00:00.000Z',
      },
    },
    state,
  });
  const wanted = { part_id: 'p', phase: 'cut' as const };
  it('come once each: on record, answered but not yet read back, and still waiting', () => {
    const first = stored('1', '2026-01-01T00:00:00.000Z');
    const second = stored('2', '2026-01-01T00:00:01.000Z', 'edges');
    const found = eventsOf([first], [first, second], [waiting('2'), waiting('3')], wanted);
    expect(found.map((one) => [one.id, one.waiting])).toEqual([
      ['1', false],
      ['2', false],
      ['3', true],
    ]);
  });
  it('leave out what the shop refused, other parts and phases, and what is no step', () => {
    const other = { ...stored('4', '2026-01-01T00:00:00.000Z'), part_id: 'q' };
    const finish = { ...stored('5', '2026-01-01T00:00:00.000Z'), phase: 'finish' as const };
    expect(eventsOf([other, finish], [], [waiting('6', 'refused'), waiting('7', 'waiting', 'pass')], wanted)).toEqual(
      [],
    );
  });
  it('begin after the plan that they follow', () => {
    const old = stored('1', '2026-01-01T00:00:00.000Z');
    const fresh = stored('2', '2026-01-01T00:00:02.000Z');
    const since = '2026-01-01T00:00:01.000Z';
    expect(eventsOf([old, fresh], [old], [], { ...wanted, since }).map((one) => one.id)).toEqual(['2']);
  });
});

describe('two tablets on one cut', () => {
  it('know the pass by the step that began it first, though both said that it began', () => {
    const hand = new Hand().tickTo('pass');
    const begun = hand.events.find((one) => one.step === 'pass');
    hand.say('feed_on', 1, 'done').say('pass', 1, 'begun');
    expect(hand.state.run).toMatchObject({ began_id: begun?.id, began_ms: begun?.at_ms });
    hand.say('pass', 1, 'undone').say('pass', 1, 'begun');
    expect(hand.state.run?.began_id).toBe(hand.events.at(-1)?.id);
  });
});
