import type { JobFile, Part } from '../api/schema';
import { useNamedPart } from '../guide/bench';
import { ask, place } from '../route/router';
import { Choice } from '../shell/choice';
import { jobFile } from '../state/job';
import { words } from '../words';
import '../guide/guide.css';
import './refit.css';
import { useRefitAdvice } from './advice';
import { stateOf } from './bench';
import { useChoice } from './choice';
import { FittedReading } from './fitted_reading';
import { HowItGoesOn, Waiting } from './how_it_goes_on';
import { RefitStep } from './steps';

/** The rotor that the address names, else the first that is not back on its hub. */
function partHere(file: JobFile): Part | null {
  const named = file.parts.find((one) => one.side === place.value.query.part);
  return named ?? file.parts.find((one) => !stateOf(file, one).wheel_done) ?? file.parts[0] ?? null;
}

/** Back on the car: how each rotor goes on its hub, and the steps until the car may move. */
export function Refit() {
  const file = jobFile.value;
  const part = file ? partHere(file) : null;
  useNamedPart(part);
  if (!file || !part) return null;
  return <RefitOf key={part.id} file={file} part={part} />;
}

function RefitOf({ file, part }: { file: JobFile; part: Part }) {
  const { answer: advice, trouble } = useRefitAdvice(file, part);
  const choosing = useChoice(file, part, advice);
  const state = stateOf(file, part);
  const { view } = place.value.query;
  const which = <Which file={file} part={part} />;
  if (view === 'read') return <FittedReading file={file} part={part} which={which} />;
  if (!choosing) return <Waiting trouble={trouble} which={which} />;
  const begun = state.done.size > 0 || view === 'steps';
  if (!begun || view === 'how') {
    return (
      <HowItGoesOn
        {...{ file, part, advice, trouble, choosing, which }}
        begun={state.done.size > 0}
        on={state.done.has('part_on')}
        settled={state.done.has('nuts_full')}
      />
    );
  }
  return <RefitStep {...{ file, part, advice, choosing, state, which }} />;
}

function Which({ file, part }: { file: JobFile; part: Part }) {
  if (file.parts.length < 2) return <p class="soft">{words.trade.rotor(part.side)}</p>;
  return (
    <Choice
      label={words.refit.which}
      value={part.side}
      options={file.parts.map((one) => ({
        value: one.side,
        label: words.trade.rotor(one.side),
        note: stateOf(file, one).wheel_done ? '✓' : '',
      }))}
      onChange={(side) => ask({ part: side, view: '', of: '', turned: '' })}
    />
  );
}
