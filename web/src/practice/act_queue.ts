import { Refused, Unreachable } from '../api/client';
import type { Act, ActAnswer } from './model';

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
  /** Somebody else acted on this run: what waits is dropped, and the run is read anew. */
  onTaken: () => Promise<void>;
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
  private closed = false;

  constructor(private readonly parts: QueueParts) {}

  get idle(): boolean {
    return this.underway === null && this.waiting.length === 0;
  }

  /** `first` goes ahead of what waits, as a stop does. */
  do(act: Act, { first = false } = {}): void {
    if (this.closed) return;
    if (first) this.waiting.unshift(act);
    else this.waiting.push(act);
    void this.next();
  }

  /** Sends what is left, and asks for no lost answer any more. */
  close(): void {
    this.closed = true;
  }

  private async next(): Promise<void> {
    if (this.underway) return;
    const act = this.waiting.shift();
    if (!act) {
      this.parts.onIdle(true);
      return;
    }
    this.underway = act;
    this.parts.onIdle(false);
    await this.deliver(act, this.parts.known() + 1);
    this.underway = null;
    void this.next();
  }

  private async deliver(act: Act, number: number): Promise<void> {
    for (;;) {
      try {
        const answer = await this.parts.send(number, act);
        this.parts.onLost(false);
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
        return;
      }
    }
  }

  private async failed(act: Act, cause: unknown): Promise<void> {
    if (!(cause instanceof Refused)) return;
    if (OTHER_COUNT.includes(cause.body.code)) {
      this.waiting = [];
      await this.parts.onTaken().catch(() => undefined);
      return;
    }
    this.waiting = this.waiting.filter((one) => one.do === 'walk_away' || one.do === 'spindle');
    this.parts.onRefused(act, cause);
  }
}
