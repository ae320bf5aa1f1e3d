import { useState } from 'preact/hooks';
import { heard, isMine, outbox } from '../state/connection';
import { words } from '../words';
import { Drawer } from './drawer';

/** Says whether what was entered lies in the shop's book: a word and a shape, and the reason where it does not. */
export function Sign() {
  const [open, setOpen] = useState(false);
  const waiting = outbox.waiting.value.filter(isMine).length;
  const lost = !outbox.reached.value || !heard.value;
  const refusals = outbox.refused.value.filter(isMine);
  const refused = refusals.length;
  const word = refused
    ? words.shell.sign.refused(refused)
    : waiting && lost
      ? words.shell.sign.waiting(waiting)
      : lost
        ? words.shell.noConnection
        : waiting
          ? words.shell.sign.sending
          : words.shell.sign.saved;
  const shape = refused ? 'refused' : lost ? 'waiting' : waiting ? 'sending' : 'saved';
  return (
    <>
      <button type="button" class={`sign sign-${shape}`} onClick={() => setOpen(true)}>
        <SignShape shape={shape} />
        <span class="sign-word" role="status">
          {word}
        </span>
      </button>
      {open && (
        <Drawer title={word} onClose={() => setOpen(false)}>
          {lost && <p>{outbox.trouble.value || words.shell.sign.noConnection}</p>}
          {!lost && !refused && <p>{words.shell.sign.savedMeans}</p>}
          <ul class="refusals">
            {refusals.map((entry) => (
              <li key={entry.id}>
                <p>{entry.refusal?.message}</p>
                <p class="small soft digits">{summary(entry.sent.body)}</p>
                <div class="row">
                  <button type="button" onClick={() => outbox.again(entry.id, entry.sent.body)}>
                    {words.shell.refusedAgain}
                  </button>
                  <button type="button" class="plain" onClick={() => outbox.drop(entry.id)}>
                    {words.shell.refusedDrop}
                  </button>
                </div>
              </li>
            ))}
          </ul>
        </Drawer>
      )}
    </>
  );
}

/** What was entered, so that it can be written down before it is put aside. */
function summary(body: unknown): string {
  const entered = (body ?? {}) as Record<string, unknown>;
  return ['text', 'note', 'reason', 'action']
    .map((name) => entered[name])
    .filter((value) => typeof value === 'string' && value !== '')
    .join(' · ');
}

function SignShape({ shape }: { shape: 'saved' | 'sending' | 'waiting' | 'refused' }) {
  return (
    <svg
      viewBox="0 0 20 20"
      width="20"
      height="20"
      aria-hidden="true"
      fill="none"
      stroke="currentColor"
      stroke-width="2"
    >
      {shape === 'saved' && <path d="M3 10.5 8 15.5 17 5" />}
      {shape === 'sending' && <circle cx="10" cy="10" r="6" stroke-dasharray="4 3" />}
      {shape === 'waiting' && <path d="M3 6h14v9H3zM7 6V3h6v3" />}
      {shape === 'refused' && <path d="M10 2 18 17H2zM10 8v4M10 14v1" />}
    </svg>
  );
}
