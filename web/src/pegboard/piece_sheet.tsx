import { useEffect, useState } from 'preact/hooks';
import { call } from '../api/client';
import type { Booking, BookingKind, HungPiece } from '../api/schema';
import { Opens } from '../controls/opens';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { moment } from '../show/time';
import { personName } from '../state/shop';
import { words } from '../words';
import { book, jobNumber } from './board_state';
import { PieceForm } from './piece_form';
import { keyDimensions, runoutOf, whereIs } from './where';

const WAYS: Record<HungPiece['state'], readonly BookingKind[]> = {
  on_board: ['missing'],
  in_use: ['returned', 'missing'],
  missing: ['found'],
};

/** One piece: where it is and what can be said of that, its dimensions, and where it has been. */
export function PieceSheet({ hung, onDone }: { hung: HungPiece; onDone: () => void }) {
  const { sheet } = words.pegboard;
  const { piece, state, last_booking: last } = hung;
  const saving = useSaving();
  return (
    <>
      <p class={`piece-where piece-${state}`}>
        {piece.hook ? <span class="hook-place figures">{piece.hook}</span> : null}
        <span>{whereIs(hung)}</span>
      </p>
      <p class="figures">{[keyDimensions(piece), runoutOf(piece), piece.note].filter(Boolean).join(' · ')}</p>
      <div class="row">
        {WAYS[state].map((kind) => (
          <button
            key={kind}
            type="button"
            disabled={saving.busy}
            onClick={() => saving.run(() => book(piece.id, kind, kind === 'returned' ? (last?.job_id ?? null) : null))}
          >
            {sheet.ways[kind]}
          </button>
        ))}
      </div>
      <TroubleLine text={saving.trouble?.message} />
      <Opens title={sheet.change}>
        <PieceForm piece={piece} onDone={onDone} />
      </Opens>
      <History piece_id={piece.id} last={last ?? null} />
    </>
  );
}

function History({ piece_id, last }: { piece_id: string; last: Booking | null }) {
  const { sheet } = words.pegboard;
  const [bookings, setBookings] = useState<readonly Booking[] | null>(null);
  useEffect(() => {
    call('get', '/pieces/{piece_id}/bookings', { path: { piece_id } }).then(setBookings, () => setBookings(null));
  }, [piece_id, last?.id]);
  if (!bookings) return null;
  return (
    <section aria-label={sheet.history}>
      <h3>{sheet.history}</h3>
      {bookings.length === 0 ? <p class="small soft">{sheet.no_history}</p> : null}
      <ul class="bookings">
        {bookings.map((one) => {
          const number = jobNumber(one.job_id);
          return (
            <li key={one.id} class="small">
              <span>{number === null ? sheet.was[one.kind] : sheet.was_for(sheet.was[one.kind], number)}</span>{' '}
              <span class="soft">
                {personName(one.by_person_id)}, {moment(one.at, new Date())}
                {one.note ? ` · ${one.note}` : ''}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
