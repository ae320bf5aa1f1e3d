import { useId } from 'preact/hooks';
import type { HungPiece, Piece } from '../api/schema';
import { Field } from '../controls/field';
import type { Trouble } from '../controls/saving';
import { pegboard, withNames } from '../pegboard/board_state';
import { KINDS } from '../pegboard/columns';
import { byHook } from '../pegboard/where';
import { words } from '../words';

interface Props {
  job_id: string;
  ids: readonly string[];
  onChange: (ids: string[]) => void;
  reason: string;
  onReason: (text: string) => void;
  trouble: Trouble | null;
}

/** On the board, or out for this very job. */
const usable = (hung: HungPiece, job_id: string) =>
  hung.state === 'on_board' || (hung.state === 'in_use' && hung.last_booking?.job_id === job_id);

/** Pieces that a person chooses, from the shoulder outward; what breaks a rule needs its reason in words. */
export function OwnChoice({ job_id, ids, onChange, reason, onReason, trouble }: Props) {
  const { stack } = words.mount;
  const board = (pegboard.value ?? []).filter((hung) => hung.piece.active).sort(byHook);
  const free = (own: string) =>
    board
      .filter((hung) => hung.piece.id === own || (usable(hung, job_id) && !ids.includes(hung.piece.id)))
      .map((hung) => hung.piece);
  const put = (at: number, id: string) => onChange(ids.map((one, i) => (i === at ? id : one)));
  const add = () => {
    const last = board.find((hung) => hung.piece.id === ids.at(-1))?.piece;
    const piece = free('').find((one) => one.kind === 'spacer') ?? free('')[0];
    if (!piece) return;
    const before = last?.kind === 'nut' ? ids.length - 1 : ids.length;
    onChange([...ids.slice(0, before), piece.id, ...ids.slice(before)]);
  };
  return (
    <div class="own-choice">
      <p class="soft">{stack.lead}</p>
      <ol>
        {ids.map((id, at) => {
          const name = board.find((hung) => hung.piece.id === id)?.piece.name ?? '';
          return (
            <li key={id} class="own-line">
              <PieceSelect
                label={stack.piece_at(at + 1)}
                id={id}
                pieces={free(id)}
                onChoose={(next) => put(at, next)}
              />
              <button
                type="button"
                class="plain"
                aria-label={stack.take_off(name)}
                onClick={() => onChange(ids.filter((one) => one !== id))}
              >
                ×
              </button>
            </li>
          );
        })}
      </ol>
      <button type="button" onClick={add}>
        {stack.add}
      </button>
      {trouble ? (
        <p class="trouble" role="alert">
          {withNames(trouble.message)}
        </p>
      ) : null}
      <Field label={stack.reason} note={stack.reason_note} value={reason} lines={2} onInput={onReason} />
    </div>
  );
}

interface SelectProps {
  label: string;
  id: string;
  pieces: readonly Piece[];
  onChoose: (id: string) => void;
}

function PieceSelect({ label, id, pieces, onChoose }: SelectProps) {
  const field = useId();
  return (
    <div class="own-piece">
      <label class="field-label" for={field}>
        {label}
      </label>
      <select id={field} value={id} onChange={(event) => onChoose(event.currentTarget.value)}>
        {KINDS.map((kind) => (
          <optgroup key={kind} label={words.pegboard.kinds[kind]}>
            {pieces
              .filter((piece) => piece.kind === kind)
              .map((piece) => (
                <option key={piece.id} value={piece.id}>
                  {`${piece.hook} · ${piece.name}`}
                </option>
              ))}
          </optgroup>
        ))}
      </select>
    </div>
  );
}
