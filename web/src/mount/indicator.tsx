import { useRef } from 'preact/hooks';
import { LengthField, UnitSwitch } from '../controls/length_field';
import { Choice } from '../shell/choice';
import { words } from '../words';
import type { ProofDraft } from './proof_draft';

const COUNTS = ['4', '6', '8', '12'] as const;

/** The swing of an indicator on the face, or its readings round the turn. */
export function Indicator({ draft, onEnter }: { draft: ProofDraft; onEnter: () => void }) {
  const { proof } = words.mount;
  const { texts, change } = draft;
  return (
    <div class="fields">
      <p>{proof.hand}</p>
      <Choice
        shown
        label={proof.kinds}
        value={texts.reading}
        options={(['swing', 'trace'] as const).map((value) => ({ value, label: proof[value] }))}
        onChange={(reading) => change({ reading })}
      />
      {texts.reading === 'swing' ? (
        <div class="proof-swing">
          <LengthField
            label={proof.swing_label}
            note={proof.swing_note}
            value={texts.swing}
            unit={texts.unit}
            focused
            error={draft.wrong?.message}
            onInput={(swing) => change({ swing })}
            onUnit={(unit) => change({ unit })}
            onEnter={onEnter}
          />
        </div>
      ) : (
        <Trace draft={draft} onEnter={onEnter} />
      )}
    </div>
  );
}

function Trace({ draft, onEnter }: { draft: ProofDraft; onEnter: () => void }) {
  const { proof } = words.mount;
  const { texts, change } = draft;
  const box = useRef<HTMLDivElement>(null);
  const n = texts.trace.length;
  const count = (value: string) =>
    change({ trace: Array.from({ length: Number(value) }, (_, i) => texts.trace[i] ?? '') });
  const next = (i: number) => {
    const fields = box.current?.querySelectorAll<HTMLInputElement>('input');
    const to = fields?.[i + 1];
    if (!to) {
      onEnter();
      return;
    }
    to.focus();
    to.select();
  };
  return (
    <>
      <Choice
        shown
        label={proof.points}
        value={String(n)}
        options={COUNTS.map((value) => ({ value, label: value }))}
        onChange={count}
      />
      <p class="small soft">{proof.trace_lead}</p>
      <div class="trace-fields" ref={box}>
        {texts.trace.map((text, i) => {
          const label = proof.point(Number(((360 / n) * i).toFixed(1)));
          return (
            <label key={i} class="trace-field">
              <span class="field-label">{label}</span>
              <input
                class="figures"
                type="text"
                inputMode="decimal"
                autoComplete="off"
                spellcheck={false}
                maxLength={60}
                data-gauge="own"
                value={text}
                onInput={(event) => {
                  const typed = event.currentTarget.value;
                  change((now) => ({ trace: now.trace.map((one, at) => (at === i ? typed : one)) }));
                }}
                onKeyDown={(event) => {
                  if (event.key !== 'Enter') return;
                  event.preventDefault();
                  next(i);
                }}
              />
            </label>
          );
        })}
        <UnitSwitch label={proof.trace} unit={texts.unit} onUnit={(unit) => change({ unit })} />
      </div>
      {draft.wrong ? (
        <p class="field-error" role="alert">
          {draft.wrong.message}
        </p>
      ) : null}
    </>
  );
}
