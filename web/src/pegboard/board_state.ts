import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { BookingKind, HungPiece } from '../api/schema';
import { heard, lastChange } from '../state/connection';

/** The pegboard as the shop last told it; null until it was asked for. */
export const pegboard = signal<HungPiece[] | null>(null);

export async function loadPegboard(): Promise<HungPiece[]> {
  const hung = await call('get', '/pegboard');
  pegboard.value = hung;
  return hung;
}

const TOUCHES = /^(?:piece|mount)\./;
const SETTLE_MS = 80;

/** Keeps the pegboard as it is, for as long as something shows it. */
export function usePegboard(): HungPiece[] | null {
  const change = lastChange.value;
  const seq = change && TOUCHES.test(change.kind) ? change.seq : 0;
  useEffect(() => {
    const timer = setTimeout(() => void loadPegboard().catch(() => undefined), pegboard.value ? SETTLE_MS : 0);
    return () => clearTimeout(timer);
  }, [seq, heard.value]);
  return pegboard.value;
}

export const hungPiece = (id: string): HungPiece | null => pegboard.value?.find((hung) => hung.piece.id === id) ?? null;

const ID = /[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;

/** A sentence of the shop's with the names of pieces in place of their ids. */
export const withNames = (text: string): string => text.replace(ID, (id) => hungPiece(id)?.piece.name ?? id);

/** Says that a piece went somewhere or came back. */
export async function book(piece_id: string, kind: BookingKind, job_id: string | null): Promise<void> {
  await call('post', '/bookings', { body: { id: newId(), piece_id, kind, job_id, note: '' } });
  await loadPegboard();
}

const numbers = signal<ReadonlyMap<string, number>>(new Map());
const asked = new Set<string>();

/** The number of a job by its id, as soon as the shop has told it. */
export function jobNumber(job_id: string | null | undefined): number | null {
  if (!job_id) return null;
  if (!asked.has(job_id)) {
    asked.add(job_id);
    call('get', '/jobs/{job_id}', { path: { job_id } }).then(
      (file) => {
        const { number } = file.job;
        if (number !== undefined) numbers.value = new Map(numbers.value).set(job_id, number);
      },
      () => asked.delete(job_id),
    );
  }
  return numbers.value.get(job_id) ?? null;
}
