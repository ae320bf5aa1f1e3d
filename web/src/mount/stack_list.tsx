import type { Piece } from '../api/schema';
import { withNames } from '../pegboard/board_state';
import { words } from '../words';
import { assemblyOrder, ROTOR } from './stack_geometry';

interface Props {
  pieces: readonly Piece[];
  why: readonly string[];
  hubbed: boolean;
  busy?: boolean;
  onGone?: ((id: string) => void) | undefined;
}

/** The order of assembly, hook by hook, with the rotor in its place. */
export function StackList({ pieces, why, hubbed, busy = false, onGone }: Props) {
  const { stack } = words.mount;
  return (
    <>
      <p class="soft">{stack.lead}</p>
      <ol class="stack-list">
        {assemblyOrder(pieces, hubbed).map((key, i) => {
          const at = pieces.findIndex((piece) => piece.id === key);
          const piece = pieces[at];
          if (key === ROTOR || !piece) {
            return (
              <li key={key} class="stack-line stack-line-rotor">
                <span class="stack-count figures">{i + 1}</span>
                <span class="stack-name">{stack.the_rotor}</span>
                <span class="stack-why small">{hubbed ? stack.rotor_hubbed : stack.rotor_hubless}</span>
              </li>
            );
          }
          return (
            <li key={key} class="stack-line">
              <span class="stack-count figures">{i + 1}</span>
              <span class="hook-place figures">{piece.hook || stack.no_hook}</span>
              <span class="stack-name">
                {piece.name} <span class="small soft">{words.pegboard.kind[piece.kind]}</span>
              </span>
              {onGone ? (
                <button
                  type="button"
                  class="plain small stack-gone"
                  disabled={busy}
                  aria-label={stack.gone_of(piece.name)}
                  onClick={() => onGone(piece.id)}
                >
                  {stack.gone}
                </button>
              ) : null}
              {why[at] ? <span class="stack-why small soft">{withNames(why[at] ?? '')}</span> : null}
            </li>
          );
        })}
      </ol>
    </>
  );
}
