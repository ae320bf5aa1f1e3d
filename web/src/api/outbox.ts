import { computed, signal } from '@preact/signals';
import { type Method, Refused, type Sent, Unreachable } from './client';
import { newId } from './ids';
import type { RefusalBody } from './schema';

/**
 * What was entered and has not yet been acknowledged by the shop. Each entry lies in the page's own storage, one key
 * each, before it is sent, and leaves it when the shop has answered; a page that is closed meanwhile goes on with it
 * the next time. Entries go one after the other in the order of their making. Their bodies carry ids that were made
 * here, so an answer that got lost costs nothing: sent twice, stored once.
 *
 * A refusal is not lost either: the entry stays as `questioned` (the shop doubts the reading) or `refused` until a
 * person answers.
 */
export type EntryState = 'waiting' | 'questioned' | 'refused';

export interface Entry {
  /** Sorts in the order of making. */
  id: string;
  made_at: number;
  /** What it is about, for the one who shows it: such as `reading` with the id of the reading in the body. */
  about: string;
  job_id: string | null;
  sent: Sent;
  state: EntryState;
  refusal?: RefusalBody;
}

export interface OutboxParts {
  storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;
  send: (sent: Sent) => Promise<unknown>;
  /** Calls back after so many milliseconds. */
  later: (work: () => void, ms: number) => void;
  now: () => number;
  /** Whether an entry can be sent now; one that cannot waits and holds up no other. */
  may?: (entry: Entry) => boolean;
  newId?: () => string;
}

const KEY = 'brakewright/outbox/';
const FIRST_RETRY_MS = 500;
const LAST_RETRY_MS = 8000;
const RETRY_STATUS = 500;
const NOT_SIGNED_IN = 401;

export class Outbox {
  readonly entries = signal<Entry[]>([]);
  readonly waiting = computed(() => this.entries.value.filter((entry) => entry.state === 'waiting'));
  readonly questioned = computed(() => this.entries.value.filter((entry) => entry.state === 'questioned'));
  readonly refused = computed(() => this.entries.value.filter((entry) => entry.state === 'refused'));
  /** False after a failed attempt, until one succeeds. */
  readonly reached = signal(true);
  /** Why the shop cannot store, in its own words, when it answers but fails. */
  readonly trouble = signal('');

  private running: Promise<void> | null = null;
  private retry_ms = FIRST_RETRY_MS;
  private retryPlanned = false;
  private listeners: ((entry: Entry, answer: unknown) => void)[] = [];
  private promises = new Map<string, { resolve: (answer: unknown) => void; reject: (cause: unknown) => void }>();

  constructor(private readonly parts: OutboxParts) {
    this.reload();
  }

  /** Called with the shop's answer after an entry went through. */
  onAnswer(listener: (entry: Entry, answer: unknown) => void): void {
    this.listeners.push(listener);
  }

  /** Keeps what was entered and sets out to send it. Throws when the page's storage is full: nothing is kept then. */
  put(
    about: string,
    job_id: string | null,
    method: Method,
    path: string,
    query: Record<string, unknown>,
    body?: unknown,
  ) {
    const sent: Sent = { method, path, query };
    if (body !== undefined) sent.body = body;
    const id = (this.parts.newId ?? newId)();
    const entry: Entry = { id, made_at: this.parts.now(), about, job_id, sent, state: 'waiting' };
    this.keep(entry);
    void this.flush();
    return entry;
  }

  /** Settles when the shop has answered the entry: with its answer, or with `Refused`. */
  answered(entry: Entry): Promise<unknown> {
    return new Promise((resolve, reject) => this.promises.set(entry.id, { resolve, reject }));
  }

  /** Sends an entry again with another body: the answer to a question. */
  again(id: string, body: unknown): void {
    const entry = this.entries.value.find((one) => one.id === id);
    if (!entry) return;
    const { refusal: _, ...rest } = entry;
    this.keep({ ...rest, sent: { ...entry.sent, body }, state: 'waiting' });
    void this.flush();
  }

  /** Lets go of an entry that the shop has refused or questioned; it was never stored there. */
  drop(id: string): void {
    const entry = this.entries.value.find((one) => one.id === id);
    if (!entry || entry.state === 'waiting') return;
    this.forget(id);
  }

  /** Tries at once; several callers share one run. */
  flush(): Promise<void> {
    this.running ??= this.run();
    return this.running;
  }

  /** Reads the storage again: another tab may have added to it or emptied it. */
  reload(): void {
    const found: Entry[] = [];
    for (let i = 0; i < this.parts.storage.length; ++i) {
      const key = this.parts.storage.key(i);
      if (!key?.startsWith(KEY)) continue;
      const entry = readEntry(this.parts.storage.getItem(key));
      if (entry) found.push(entry);
    }
    this.entries.value = found.sort((a, b) => (a.id < b.id ? -1 : 1));
  }

  private next(): Entry | undefined {
    return this.waiting.value.find((entry) => this.parts.may?.(entry) ?? true);
  }

  /** Ends in the same breath in which it finds nothing to send, so that what is put meanwhile begins another run. */
  private async run(): Promise<void> {
    await Promise.resolve();
    try {
      for (let entry = this.next(); entry; entry = this.next()) {
        if (!(await this.sendOne(entry))) return;
      }
    } finally {
      this.running = null;
    }
  }

  /** False when the others have to wait as well. */
  private async sendOne(entry: Entry): Promise<boolean> {
    try {
      const answer = await this.parts.send(entry.sent);
      this.wentThrough(entry, answer);
    } catch (cause) {
      // Nobody is signed in any more: it waits for whoever entered it.
      if (cause instanceof Refused && cause.status === NOT_SIGNED_IN) return false;
      if (!(cause instanceof Refused) || cause.status >= RETRY_STATUS) {
        this.trouble.value = cause instanceof Refused ? cause.body.message : '';
        this.reached.value = false;
        this.planRetry();
        if (cause instanceof Refused || cause instanceof Unreachable) return false;
        throw cause;
      }
      this.wasRefused(entry, cause);
    }
    return true;
  }

  private wentThrough(entry: Entry, answer: unknown): void {
    this.answeredAtAll();
    for (const listener of this.listeners) listener(entry, answer);
    this.forget(entry.id);
    this.promises.get(entry.id)?.resolve(answer);
    this.promises.delete(entry.id);
  }

  private wasRefused(entry: Entry, cause: Refused): void {
    this.answeredAtAll();
    const state = cause.body.code === 'doubtful_reading' ? 'questioned' : 'refused';
    this.keep({ ...entry, state, refusal: cause.body });
    this.promises.get(entry.id)?.reject(cause);
    this.promises.delete(entry.id);
  }

  private answeredAtAll(): void {
    this.reached.value = true;
    this.trouble.value = '';
    this.retry_ms = FIRST_RETRY_MS;
  }

  private planRetry(): void {
    if (this.retryPlanned) return;
    this.retryPlanned = true;
    this.parts.later(() => {
      this.retryPlanned = false;
      void this.flush();
    }, this.retry_ms);
    this.retry_ms = Math.min(2 * this.retry_ms, LAST_RETRY_MS);
  }

  private keep(entry: Entry): void {
    this.parts.storage.setItem(KEY + entry.id, JSON.stringify(entry));
    const others = this.entries.value.filter((one) => one.id !== entry.id);
    this.entries.value = [...others, entry].sort((a, b) => (a.id < b.id ? -1 : 1));
  }

  private forget(id: string): void {
    this.parts.storage.removeItem(KEY + id);
    this.entries.value = this.entries.value.filter((one) => one.id !== id);
  }
}

function readEntry(text: string | null): Entry | null {
  try {
    const entry = JSON.parse(text ?? 'null') as Entry | null;
    return entry?.id && entry.sent && entry.state ? entry : null;
  } catch {
    return null;
  }
}
