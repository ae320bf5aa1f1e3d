import { useRef } from 'preact/hooks';
import { words } from '../words';
import { DEG_PER_MARK, type Drag, dragged, fingerAt, MARKS_ROUND, markAtIndex, scaleTurn } from './dial';
import { whole } from './numbers';

interface Props {
  name: string;
  /** Where it stands, with what was turned and is not yet with the shop. */
  marks: number;
  onTurn: (marks: number) => void;
  disabled?: boolean;
}

const LONG_EVERY = 10;
const KEYS: Record<string, number> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: LONG_EVERY,
  PageDown: -LONG_EVERY,
};

/** A graduated dial that follows a finger round it; a mark at a time by its buttons or the arrow keys. */
export function DialWheel({ name, marks, onTurn, disabled = false }: Props) {
  const { cut: said } = words.practice_bench;
  const drag = useRef<Drag | null>(null);
  const at = (event: PointerEvent) => {
    const box = (event.currentTarget as Element).getBoundingClientRect();
    const [x, y] = [event.clientX - box.left - box.width / 2, event.clientY - box.top - box.height / 2];
    return fingerAt(x, y, box.width / 2);
  };
  const down = (event: PointerEvent) => {
    if (disabled) return;
    (event.currentTarget as Element).setPointerCapture?.(event.pointerId);
    drag.current = { at_deg: at(event), rest_deg: 0 };
  };
  const move = (event: PointerEvent) => {
    if (!drag.current) return;
    const next = dragged(drag.current, at(event));
    drag.current = next.drag;
    if (next.marks !== 0) onTurn(next.marks);
  };
  const up = () => {
    drag.current = null;
  };
  const keys = (event: KeyboardEvent) => {
    const by = KEYS[event.key];
    if (by === undefined || disabled) return;
    event.preventDefault();
    onTurn(by);
  };
  return (
    <div class="dial">
      <div
        class="dial-wheel"
        role="slider"
        tabIndex={0}
        aria-label={name}
        aria-valuenow={marks}
        aria-valuetext={said.dial_at(whole(marks))}
        aria-disabled={disabled}
        onKeyDown={keys}
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={up}
        onPointerCancel={up}
      >
        <svg viewBox="-60 -60 120 120" aria-hidden="true">
          <circle r="54" class="dial-rim" />
          <g transform={`rotate(${scaleTurn(marks)})`}>
            {Array.from({ length: MARKS_ROUND }, (_, i) => {
              const long = i % LONG_EVERY === 0;
              return (
                // A mark's place on the scale is what it is.
                <g key={DEG_PER_MARK * i} transform={`rotate(${-DEG_PER_MARK * i})`}>
                  <path d={`M0 -54V${long ? -43 : -48}`} class="dial-mark" />
                  {long ? (
                    <text y={-33} class="dial-number">
                      {i}
                    </text>
                  ) : null}
                </g>
              );
            })}
          </g>
          <path d="M0 -60L-5 -52H5Z" class="dial-index" />
          <text class="dial-at" y="7">
            {markAtIndex(marks)}
          </text>
        </svg>
      </div>
      <div class="dial-steps">
        <button type="button" disabled={disabled} aria-label={`${name}: ${said.out}`} onClick={() => onTurn(-1)}>
          −1
        </button>
        <p class="figures">{said.dial_at(whole(marks))}</p>
        <button type="button" disabled={disabled} aria-label={`${name}: ${said.in}`} onClick={() => onTurn(1)}>
          +1
        </button>
      </div>
    </div>
  );
}
