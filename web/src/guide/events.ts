import type { Entry } from '../api/outbox';
import type { BenchStep, NewBenchStep } from '../api/schema';

/** One thing that was ticked, paused or went wrong at the bench, on record or still waiting in this page. */
export interface BenchEvent {
  id: string;
  step: string;
  pass: number;
  event: BenchStep['event'];
  detail: string;
  at_ms: number;
  waiting: boolean;
  /** By the shop's clock; absent while it waits. */
  received_at?: string;
}

export interface Wanted {
  part_id: string;
  phase: BenchStep['phase'];
  /** Only what the shop received after this moment, by the shop's own clock; what it has not received counts. */
  since?: string | undefined;
}

/**
 * What happened to one part in one phase, in the order in which the shop received it; then what this page has had
 * answered but not yet read back (`held`), then what is still to be sent. Nothing comes twice. What the shop refused
 * did not happen.
 */
export function eventsOf(
  stored: readonly BenchStep[],
  held: readonly BenchStep[],
  entries: readonly Entry[],
  { part_id, phase, since = '' }: Wanted,
): BenchEvent[] {
  const seen = new Set<string>();
  const result: BenchEvent[] = [];
  const take = (one: NewBenchStep, received?: Pick<BenchStep, 'received_at'>) => {
    if (seen.has(one.id) || one.part_id !== part_id || one.phase !== phase) return;
    seen.add(one.id);
    const { id, step, event, detail } = one;
    result.push({
      id,
      step,
      pass: one.pass ?? 0,
      event,
      detail,
      at_ms: Date.parse(one.taken_at ?? ''),
      waiting: !received,
      ...(received ? { received_at: received.received_at } : {}),
    });
  };
  for (const one of [...stored, ...held]) {
    if (one.received_at > since) take(one, one);
    else seen.add(one.id);
  }
  for (const entry of entries) {
    if (entry.about === 'step' && entry.state === 'waiting') take(entry.sent.body as NewBenchStep);
  }
  return result;
}
