import { call } from '../api/client';
import type { JobFile, PartDiagnosis } from '../api/schema';
import type { components } from '../api/types';
import { Opens } from '../controls/opens';
import { percent } from '../show/length';
import { typeset } from '../show/typeset';
import { useAnswer } from '../state/answer';
import { words } from '../words';
import { FindingHead } from './finding_head';
import { likelyFirst } from './findings';

type Schemas = components['schemas'];
type Found = Schemas['CalcDiagnoseOutput'];
type Cause = Schemas['CalcDiagnoseCause'];

/** Of each part that was cut: what the shop makes of it. Nothing is said of those that wait, nor of drums. */
export function Diagnoses({ file }: { file: JobFile }) {
  const job_id = file.job.id;
  const { answer } = useAnswer(() => call('get', '/jobs/{job_id}/diagnosis', { path: { job_id } }), [file]);
  const found = answer?.parts.filter((part) => part.found) ?? [];
  if (found.length === 0) return null;
  return (
    <Opens title={words.diagnosis.title}>
      <div class={`rotors rotors-${found.length}`}>
        {found.map((part) => (
          <Diagnosed key={part.part_id} part={part} />
        ))}
      </div>
    </Opens>
  );
}

function Diagnosed({ part }: { part: PartDiagnosis }) {
  const { diagnosis, check } = words;
  const { found, signs } = part;
  if (!found) return null;
  const { likely, rest } = likelyFirst(found.causes);
  return (
    <section class="rotor" aria-label={`${diagnosis.title}: ${check.rotor[part.side]}`}>
      <h3>{check.rotor[part.side]}</h3>
      <p class="small soft">{diagnosis.lead(signs.length)}</p>
      <ol class="findings">
        {likely.map((one) => (
          <CauseLine key={one.cause} cause={one} />
        ))}
      </ol>
      {found.next_check ? <Next check={found.next_check} /> : null}
      <Opens title={diagnosis.rest(rest.length)}>
        <ul class="small">
          {rest.map((one) => (
            <li key={one.cause}>
              {one.words}: {percent(one.p)}
            </li>
          ))}
        </ul>
      </Opens>
      <Opens title={diagnosis.signs}>
        <ul class="small">
          {signs.map((one) => (
            <li key={one.sign}>
              {typeset(one.text)} <span class="soft">({one.from})</span>
            </li>
          ))}
        </ul>
        <p class="small soft">{diagnosis.learnt(String(found.learnt.parts))}</p>
      </Opens>
    </section>
  );
}

function Next({ check }: { check: NonNullable<Found['next_check']> }) {
  const { diagnosis } = words;
  return (
    <p>
      <strong>{diagnosis.next}:</strong> {typeset(check.text)}
    </p>
  );
}

function CauseLine({ cause }: { cause: Cause }) {
  const { diagnosis, dials } = words;
  const list = (title: string, some: Cause['for']) =>
    some.length === 0 ? null : (
      <>
        <p class="small soft">{title}</p>
        <ul class="small">
          {some.map((one) => (
            <li key={one.sign}>{typeset(one.text)}</li>
          ))}
        </ul>
      </>
    );
  return (
    <li class="finding">
      <FindingHead name={cause.words} p={cause.p} />
      {list(diagnosis.speaks_for, cause.for)}
      {list(diagnosis.speaks_against, cause.against)}
      <p>
        <strong>{dials.check}:</strong> {typeset(cause.check)}
      </p>
      <p>
        <strong>{diagnosis.correction}:</strong> {typeset(cause.correction)}{' '}
        <span class="small soft">{cause.basis}</span>
      </p>
    </li>
  );
}
