/**
 * Asks one question at a time and only the latest: while an answer is awaited, a newer question replaces the one that
 * waits, so that a drag never queues up behind itself and an old answer never overwrites a new one.
 */
export class Latest<Q, A> {
  private asking = false;
  private next: { question: Q } | null = null;

  constructor(
    private readonly ask: (question: Q) => Promise<A>,
    private readonly onAnswer: (answer: A, question: Q) => void,
    private readonly onTrouble: (cause: unknown) => void,
  ) {}

  want(question: Q): void {
    this.next = { question };
    if (!this.asking) void this.run();
  }

  /** Forgets what waits; an answer under way is left aside. */
  drop(): void {
    this.next = null;
    this.dropped += 1;
  }

  private dropped = 0;

  private async run(): Promise<void> {
    this.asking = true;
    while (this.next) {
      const { question } = this.next;
      this.next = null;
      const mine = this.dropped;
      try {
        const answer = await this.ask(question);
        if (mine === this.dropped) this.onAnswer(answer, question);
      } catch (cause) {
        if (mine === this.dropped) this.onTrouble(cause);
      }
    }
    this.asking = false;
  }
}

/** Does the last of many asked-for works at the next frame, and only that one. */
export function everyFrame<T>(work: (value: T) => void, frame: (then: () => void) => unknown): (value: T) => void {
  let waiting: { value: T } | null = null;
  return (value) => {
    const planned = waiting !== null;
    waiting = { value };
    if (planned) return;
    frame(() => {
      const last = waiting;
      waiting = null;
      if (last) work(last.value);
    });
  };
}
