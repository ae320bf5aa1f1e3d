import { useState } from 'preact/hooks';
import type { JobFile, Part } from '../api/schema';
import { Caution } from '../controls/caution';
import { Field } from '../controls/field';
import { HubPicture } from '../pictures/hub';
import { keepDraft, readDraft } from '../state/drafts';
import { words } from '../words';
import { refitEvents } from './bench';
import { turningOf } from './how_it_goes_on';
import { readTorque, showTorque, type Torque, type TorqueUnit, torqueFromWords } from './place';
import { refitState } from './refit_steps';
import { STAGES, starOrder, torqueStages } from './star_order';

interface Typed {
  text: string;
  unit: TorqueUnit;
  source: string;
}

/** What is ticked of the torque at this wheel, else at another, else what the shop has on record of this job. */
function tickedTorque(file: JobFile, part: Part): Torque | null {
  const wheels = [part, ...file.parts.filter((one) => one.id !== part.id)];
  for (const wheel of wheels) {
    const said = refitState(refitEvents(file, wheel), []).details.get('nuts_by_hand');
    const torque = said ? torqueFromWords(said) : null;
    if (torque) return torque;
  }
  const last = file.refits.at(-1);
  return last?.nut_torque_nm ? { nm: last.nut_torque_nm, source: last.torque_source ?? '' } : null;
}

/** The torque of this vehicle's nuts, as it is typed with where it stands. */
export function useTorque(file: JobFile, part: Part) {
  const ticked = tickedTorque(file, part);
  const name = `torque.${file.job.id}`;
  const [typed, setTyped] = useState<Typed>(() =>
    readDraft(localStorage, name, {
      text: ticked ? String(ticked.nm) : '',
      unit: 'nm' as TorqueUnit,
      source: ticked?.source ?? '',
    }),
  );
  const [asked, setAsked] = useState(false);
  const nm = readTorque(typed.text, typed.unit);
  const source = typed.source.trim();
  const mine = nm !== null && source !== '' ? { nm, source } : null;
  return {
    typed,
    known: ticked ?? mine,
    unit: typed.unit,
    change: (some: Partial<Typed>) => {
      const next = { ...typed, ...some };
      setTyped(next);
      keepDraft(localStorage, name, next);
    },
    wrong: {
      torque: asked && nm === null ? words.refit.nuts.wrong : undefined,
      source: asked && source === '' ? words.refit.nuts.source_needed : undefined,
    },
    check: () => {
      setAsked(true);
      return mine;
    },
  };
}

export type Torquing = ReturnType<typeof useTorque>;

export function TorqueForm({ torque }: { torque: Torquing }) {
  const { nuts } = words.refit;
  const { typed, change, wrong } = torque;
  const other: TorqueUnit = typed.unit === 'nm' ? 'lbft' : 'nm';
  return (
    <div class="torque">
      <Field
        label={nuts.torque}
        hint={nuts.torque_hint}
        value={typed.text}
        digits
        inputMode="decimal"
        error={wrong.torque}
        onInput={(text) => change({ text })}
        after={
          <button type="button" class="unit-switch figures" onClick={() => change({ unit: other })}>
            {nuts.unit[typed.unit]}
          </button>
        }
      />
      <Field
        label={nuts.source}
        hint={nuts.source_hint}
        value={typed.source}
        error={wrong.source}
        onInput={(source) => change({ source })}
      />
    </div>
  );
}

const ROUNDS = { nuts_first: 0, nuts_second: 1, nuts_full: 2 } as const;

interface RoundProps {
  at: keyof typeof ROUNDS;
  part: Part;
  turned: number;
  torque: Torquing;
}

/** One round of the star: how far, and in which order. */
export function NutRound({ at, part, turned, torque }: RoundProps) {
  const { nuts } = words.refit;
  const studs = part.studs ?? 5;
  const order = starOrder(studs);
  const share = STAGES[ROUNDS[at]];
  const nm = torque.known ? torqueStages(torque.known.nm)[ROUNDS[at]] : undefined;
  const numbers = Array.from({ length: studs }, (_, stud) => String(order.indexOf(stud) + 1));
  return (
    <div class="guide-step">
      <div class="guide-do">
        <p class="guide-big">
          {nm === undefined ? null : (
            <>
              <span class="guide-figure figures">{showTorque(nm, torque.unit)}</span>{' '}
              <span class="guide-unit">{nuts.unit[torque.unit]}</span>
            </>
          )}
          <span class="guide-unit">{share === 1 ? nuts.whole : nuts.stage(100 * share)}</span>
        </p>
        <p class="guide-note">{nuts.order}</p>
        {torque.known?.source ? <p class="soft">{torque.known.source}</p> : null}
        <p class="small soft">{nuts.common}</p>
      </div>
      <HubPicture
        name={nuts.picture}
        says={nuts.order_says(order.map((stud) => stud + 1).join(', '))}
        studs={studs}
        turning={turningOf(part)}
        turned={turned}
        numbers={numbers}
      />
      <Caution title={nuts.caution} source={nuts.caution_source}>
        <ul class="cautions">
          {nuts.caution_lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </Caution>
    </div>
  );
}
