import { call } from '../api/client';
import { newId } from '../api/ids';
import { Field } from '../controls/field';
import { Opens } from '../controls/opens';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { moment } from '../show/time';
import { useStanding } from '../state/answer';
import { useKept } from '../state/kept';
import { CUTS } from '../state/kinds';
import { leads } from '../state/role';
import { person, personName } from '../state/shop';
import { words } from '../words';
import { cutsOf } from './cuts_of';
import { jobNamed } from './job_named';

/** The cuts that somebody signed for this person. */
export function SignedCuts({ person_id }: { person_id: string }) {
  const { permit } = words;
  const { answer, again } = useStanding(() => cutsOf(person_id), CUTS, { of: [person_id] });
  const cuts = answer ?? [];
  const maySign = leads.value && person.value?.id !== person_id;
  if (cuts.length === 0 && !maySign) return null;
  return (
    <section class="signed-cuts" aria-label={permit.cuts_title}>
      {cuts.length > 0 ? <h2>{permit.cuts_title}</h2> : null}
      <ul class="things">
        {cuts.map((one) => (
          <li key={one.id} class="signed-cut">
            <span>{one.note}</span>{' '}
            <span class="small soft">
              {permit.cut_by(personName(one.signed_by_person_id), moment(one.at ?? '', new Date()))}
            </span>
          </li>
        ))}
      </ul>
      {maySign ? <SignCut person_id={person_id} onSigned={again} /> : null}
    </section>
  );
}

const FIELDS = ['job_id', 'note'];

function SignCut({ person_id, onSigned }: { person_id: string; onSigned: () => void }) {
  const { sign } = words.permit;
  const kept = useKept(`sign_cut.${person_id}`, () => ({ id: newId(), job: '', note: '' }));
  const { draft, change, drop } = kept;
  const saving = useSaving();
  const submit = (event: Event) => {
    event.preventDefault();
    void saving.run(async () => {
      const job_id = await jobNamed(draft.job, sign.job_unknown);
      await call('post', '/supervised-cuts', { body: { id: draft.id, person_id, job_id, note: draft.note.trim() } });
      drop();
      onSigned();
    });
  };
  return (
    <Opens title={sign.title} open={draft.note !== '' || draft.job !== ''}>
      <form class="fields" onSubmit={submit}>
        <p class="soft small">{sign.lead}</p>
        <Field
          label={sign.job}
          value={draft.job}
          digits
          inputMode="numeric"
          maxLength={12}
          error={wrongWith(saving.trouble, 'job_id')}
          onInput={(job) => change({ job })}
        />
        <Field
          label={sign.note}
          hint={sign.note_hint}
          value={draft.note}
          error={wrongWith(saving.trouble, 'note')}
          onInput={(note) => change({ note })}
        />
        <TroubleLine text={wrongElsewhere(saving.trouble, FIELDS)} />
        <button type="submit" disabled={saving.busy}>
          {sign.do}
        </button>
      </form>
    </Opens>
  );
}
