import { Refused, Unreachable } from '../api/client';
import { joinedTurn } from './dial';
import type { Act, ActAnswer } from './model';
import { isStop } from './turning';

/**
 * Acts of one hand, one after the other. Each goes under the number that follows the last one that the shop knows. An
 * answer that is lost is asked for again under the same number, so that nothing is done twice; a refusal uses no number.
 */
export interface QueueParts {
  send: (number: number, act: Act) => Promise<ActAnswer>;
  /** Acts that the shop knows. */
  known: () => number;
  onAnswer: (act: Act, answer: ActAnswer) => void;
  onRefused: (act: Act, cause: Refused) => void;
  /** Somebody else acted on this run: the run is read anew. A stop is tried again after that. */
  onTaken: () => Promise<void>;
  /** An act of a hand came to nothing by that. */
  onDropped: (act: Act) => void;
  /** What is on its way to the shop or waits for it, in order. */
  onPending: (acts: readonly Act[]) => void;
  onLost: (lost: boolean) => void;
  onIdle: (idle: boolean) => void;
  later: (work: () => void, ms: number) => unknown;
}

const AGAIN_MS = 1500;
/** The shop's count of acts is not that of this page: another tablet acted on the run. */
const OTHER_COUNT = ['number_taken', 'number_ahead'];

export class ActQueue {
  private waiting: Act[] = [];
  private underway: Act | null = null;
  private busy = false;
  private closed = false;

  constructor(private readonly parts: QueueParts) {}

  get idle(): boolean {
    return !this.busy && this.waiting.length === 0;
  }

  get pending(): readonly Act[] {
    return this.underway ? [this.underway, ...this.waiting] : [...this.waiting];
  }

  /** `first` goes ahead of what waits, as a stop does. Turns of one dial that still wait go as one. */
  do(act: Act, { first = false } = {}): void {
    if (this.closed) return;
    if (first) this.waiting.unshift(act);
    else this.join(act);
    this.parts.onPending(this.pending);
    void this.next();
  }

  /** Sends what is left, and asks for no lost answer any more. */
  close(): void {
    this.closed = true;
  }

  private join(act: Act): void {
    const joined = joinedTurn(this.waiting.at(-1), act);
    if (joined) this.waiting.pop();
    if (joined?.marks !== 0) this.waiting.push(joined ?? act);
  }

  private async next(): Promise<void> {
    if (this.busy) return;
    const act = this.waiting.shift();
    if (!act) {
      this.parts.onIdle(true);
      return;
    }
    this.busy = true;
    this.underway = act;
    this.parts.onIdle(false);
    await this.deliver(act, this.parts.known() + 1);
    this.busy = false;
    void this.next();
  }

  /** The act is no longer on its way: what it did is in the view, or it did nothing. */
  private over(): void {
    this.underway = null;
    this.parts.onPending(this.pending);
  }

  private async deliver(act: Act, number: number): Promise<void> {
    for (;;) {
      try {
        const answer = await this.parts.send(number, act);
        this.parts.onLost(false);
        this.over();
        this.parts.onAnswer(act, answer);
        return;
      } catch (cause) {
        if (cause instanceof Unreachable && !this.closed) {
          this.parts.onLost(true);
          await new Promise<void>((done) => this.parts.later(done, AGAIN_MS));
          continue;
        }
        this.parts.onLost(false);
        await this.failed(act, cause);
        this.over();
        return;
      }
    }
  }

  private async failed(act: Act, cause: unknown): Promise<void> {
    if (!(cause instanceof Refused)) return;
    const dropped = this.waiting.filter((one) => !isStop(one));
    this.waiting = this.waiting.filter(isStop);
    if (!OTHER_COUNT.includes(cause.body.code)) {
      this.parts.onRefused(act, cause);
      return;
    }
    const before = this.parts.known();
    await this.parts.onTaken().catch(() => undefined);
    if (isStop(act) && this.parts.known() !== before) this.waiting.unshift(act);
    else dropped.unshift(act);
    const [told] = dropped.filter((one) => one.do !== 'turns');
    if (told) this.parts.onDropped(told);
  }
}
