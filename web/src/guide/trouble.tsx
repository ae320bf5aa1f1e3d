import { useState } from 'preact/hooks';
import { Field } from '../controls/field';
import { Drawer } from '../shell/drawer';
import { words } from '../words';

export type TroubleKind = keyof typeof words.guide.trouble.kinds;
const KINDS = Object.keys(words.guide.trouble.kinds) as TroubleKind[];

/** A trouble as its step keeps it: the kind, and what was said of it. */
export const troubleText = (kind: TroubleKind, said: string) => (said.trim() ? `${kind}: ${said.trim()}` : kind);

export function troubleOf(detail: string): { kind: TroubleKind; said: string } {
  const [word = '', ...rest] = detail.split(': ');
  const kind = KINDS.find((one) => one === word);
  return kind ? { kind, said: rest.join(': ') } : { kind: 'other', said: detail };
}

interface Props {
  /** A pass runs that can be stopped. */
  running: boolean;
  onTrouble: (detail: string) => void;
  onStop: () => void;
  onClose: () => void;
}

/** First the person, then the part: what is wrong, what to do, and whether the pass goes on. */
export function TroubleSheet({ running, onTrouble, onStop, onClose }: Props) {
  const { trouble } = words.guide;
  const [kind, setKind] = useState<TroubleKind | null>(null);
  const [said, setSaid] = useState('');
  const [kept, setKept] = useState(false);
  const choose = (one: TroubleKind) => {
    setKind(one);
    if (one === 'other') return;
    onTrouble(troubleText(one, ''));
    setKept(true);
  };
  return (
    <Drawer title={trouble.title} onClose={onClose}>
      <p class="trouble-first">{trouble.first}</p>
      {kind === null ? (
        <fieldset class="trouble-kinds" aria-label={trouble.which}>
          {KINDS.map((one) => (
            <button type="button" key={one} onClick={() => choose(one)}>
              {trouble.kinds[one]}
            </button>
          ))}
        </fieldset>
      ) : (
        <section class="trouble-do" aria-label={trouble.kinds[kind]}>
          <h3>{trouble.kinds[kind]}</h3>
          <ol>
            {trouble.what_to_do[kind].map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ol>
          <p class="small soft">{trouble.source}</p>
          {kind === 'other' && !kept ? (
            <>
              <Field label={trouble.say} value={said} onInput={setSaid} focused />
              <button
                type="button"
                onClick={() => {
                  onTrouble(troubleText('other', said));
                  setKept(true);
                }}
              >
                {trouble.keep}
              </button>
            </>
          ) : (
            <p>{trouble.kept}</p>
          )}
        </section>
      )}
      <div class="row">
        {running ? (
          <button type="button" class="main" onClick={onStop}>
            {trouble.stop}
          </button>
        ) : null}
        <button type="button" onClick={onClose}>
          {trouble.back}
        </button>
      </div>
    </Drawer>
  );
}
