import type { JobFile, Part } from '../api/schema';
import { ask, place } from '../route/router';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { jobFile } from '../state/job';
import { words } from '../words';
import './mount.css';
import { mountedOf } from './mounted';
import { Prove } from './prove';
import { SeatForm } from './seat_form';
import { StackStep } from './stack_step';

/** What goes on the arbor, in which order, and how true the rotor runs on it. */
export function MountScreen() {
  const file = jobFile.value;
  if (!file) return null;
  const { query } = place.value;
  const part =
    file.parts.find((one) => one.side === query.part) ??
    file.parts.find((one) => mountedOf(file, one.id).last?.goes_on !== true) ??
    file.parts[0];
  if (!part) return null;
  const decided = file.decisions.at(-1)?.action === 'cut';
  if (!decided && file.mounts.length === 0) return <NoCut file={file} />;
  const { mount } = mountedOf(file, part.id);
  const view = query.view || (mount ? 'prove' : 'stack');
  const which = <Which file={file} part={part} />;
  if (view === 'seat') return <SeatForm key={part.id} file={file} part={part} missing={[]} which={which} />;
  if (view === 'prove' && mount) return <Prove key={mount.id} file={file} part={part} mount={mount} which={which} />;
  return <StackStep key={part.id} file={file} part={part} which={which} />;
}

function Which({ file, part }: { file: JobFile; part: Part }) {
  const { mount } = words;
  if (file.parts.length < 2) return <h2>{mount.rotor[part.side]}</h2>;
  return (
    <Choice
      label={mount.which}
      value={part.side}
      options={file.parts.map((one) => ({ value: one.side, label: mount.rotor[one.side] }))}
      onChange={(side) => ask({ part: side, view: '' })}
    />
  );
}

function NoCut({ file }: { file: JobFile }) {
  return (
    <Screen
      name="mount"
      title={words.mount.none}
      next={
        <a class="button main" href={`/jobs/${file.job.number}/verdict`}>
          {words.mount.to_decide}
        </a>
      }
    >
      {null}
    </Screen>
  );
}
