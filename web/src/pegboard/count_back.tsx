import type { JobFile } from '../api/schema';
import { useSaving } from '../controls/saving';
import { personName } from '../state/shop';
import { words } from '../words';
import { book, usePegboard } from './board_state';
import { Glyph } from './glyph';
import './pegboard.css';
import { TroubleLine } from '../controls/trouble_line';
import { byHook } from './where';

/** What is still out for a job, each back on its hook with one tap; it says so when nothing is. */
export function CountBack({ file }: { file: JobFile }) {
  const { back } = words.pegboard;
  const board = usePegboard();
  const saving = useSaving();
  if (!board) return null;
  const taken = new Set(file.mounts.flatMap((mount) => mount.piece_ids));
  const out = board.filter((hung) => hung.state === 'in_use' && hung.last_booking?.job_id === file.job.id).sort(byHook);
  if (out.length === 0 && taken.size === 0) return null;
  const missing = board.filter((hung) => hung.state === 'missing' && taken.has(hung.piece.id));
  const withWhom = (id: string) =>
    personName(file.mounts.filter((mount) => mount.piece_ids.includes(id)).at(-1)?.by_person_id);
  const bring = (ids: readonly string[], kind: 'returned' | 'missing') =>
    saving.run(async () => {
      for (const id of ids) await book(id, kind, file.job.id);
    });
  return (
    <section class="count-back" aria-label={back.title}>
      <h2>{back.title}</h2>
      <p role="status">
        {out.length > 0
          ? back.still_out(out.length)
          : missing.length > 0
            ? back.all_but(missing.length)
            : back.all_back}
      </p>
      {missing.length > 0 ? (
        <p class="doubt">{back.missing(missing.map(({ piece }) => back.last_with(piece.name, withWhom(piece.id))))}</p>
      ) : null}
      <ul>
        {out.map(({ piece }) => (
          <li key={piece.id} class="back-line">
            <Glyph kind={piece.kind} />
            <span class="hook-place figures">{piece.hook || words.pegboard.no_hook}</span>
            <span class="back-name">
              {piece.name} <span class="small soft">{words.pegboard.kind[piece.kind]}</span>
            </span>
            <button
              type="button"
              disabled={saving.busy}
              aria-label={back.one_named(piece.name)}
              onClick={() => bring([piece.id], 'returned')}
            >
              {back.one}
            </button>
            <button
              type="button"
              class="plain"
              disabled={saving.busy}
              aria-label={back.gone_named(piece.name)}
              onClick={() => bring([piece.id], 'missing')}
            >
              {back.gone}
            </button>
          </li>
        ))}
      </ul>
      {out.length > 1 ? (
        <button
          type="button"
          disabled={saving.busy}
          onClick={() =>
            bring(
              out.map((hung) => hung.piece.id),
              'returned',
            )
          }
        >
          {back.all(out.length)}
        </button>
      ) : null}
      <TroubleLine text={saving.trouble?.message} />
    </section>
  );
}
