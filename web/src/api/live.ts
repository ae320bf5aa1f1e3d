import { address } from './client';
import type { Change } from './schema';

/**
 * The shop's journal as it grows: one connection for the page, closed while the page is hidden, resumed after the last
 * entry that was seen.
 */
export interface LiveParts {
  open: (url: string) => EventSource;
  visibility: Pick<Document, 'visibilityState' | 'addEventListener'>;
  onChange: (change: Change) => void;
  /** The shop cannot tell what happened since the last entry that was seen: read all anew. */
  onResync: () => void;
  /** Runs at the practice bench that went on: it passes, and is no entry of the journal. */
  onPractice: (run_ids: readonly string[]) => void;
  /** True when the journal is heard again, false when the connection is lost. */
  onHeard: (heard: boolean) => void;
}

export class Live {
  private source: EventSource | null = null;
  private seq = 0;
  private on = false;

  constructor(private readonly parts: LiveParts) {
    parts.visibility.addEventListener('visibilitychange', () => this.follow());
  }

  /** Starts after this entry of the journal; what came before is known. */
  start(seq: number): void {
    this.seq = Math.max(this.seq, seq);
    this.on = true;
    this.follow();
  }

  /** Hears nothing until it is started again. */
  stop(): void {
    this.on = false;
    this.source?.close();
    this.source = null;
  }

  private follow(): void {
    if (!this.on) return;
    if (this.parts.visibility.visibilityState === 'hidden') {
      this.source?.close();
      this.source = null;
      return;
    }
    if (this.source && this.source.readyState !== 2) return;
    const source = this.parts.open(address('/events', { after: this.seq }));
    source.onopen = () => this.parts.onHeard(true);
    source.onmessage = (event: MessageEvent<string>) => this.heard(event);
    source.addEventListener('resync', (event) => {
      this.seq = (JSON.parse((event as MessageEvent<string>).data) as { seq: number }).seq;
      this.parts.onResync();
    });
    source.addEventListener('practice', (event) => {
      this.parts.onPractice((JSON.parse((event as MessageEvent<string>).data) as { run_ids: string[] }).run_ids);
    });
    source.onerror = () => {
      this.parts.onHeard(false);
      if (source.readyState === 2 && this.source === source) {
        this.source = null;
        setTimeout(() => this.follow(), 2000);
      }
    };
    this.source = source;
  }

  private heard(event: MessageEvent<string>): void {
    const change = JSON.parse(event.data) as Change;
    if (change.seq <= this.seq) return;
    this.seq = change.seq;
    this.parts.onChange(change);
  }
}
