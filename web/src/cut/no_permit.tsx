import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Entry } from '../api/outbox';
import { type Trouble, useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { cutsOf, isSignedFor } from '../permit/cuts_of';
import { capital } from '../show/typeset';
import { useStanding } from '../state/answer';
import { outbox } from '../state/connection';
import { doors } from '../state/doors';
import { useKept } from '../state/kept';
import { PERMITS } from '../state/kinds';
import { person } from '../state/shop';
import { words } from '../words';
import { asksTeacher } from './asks_teacher';

/**
 * Said to a student whose permit does not stand, before anything is cut: the way to it, and where a teacher who stands
 * by signs for this job. Once signed, the shop asks no more on it.
 */
export function NoPermit({ job_id }: { job_id: string }) {
  const id = doors.value?.closed && person.value?.role === 'student' ? person.value.id : '';
  const { answer } = useStanding(
    async () =>
      id
        ? {
            permit: await call('get', '/people/{person_id}/permit', { path: { person_id: id } }),
            cuts: await cutsOf(id),
          }
        : null,
    PERMITS,
    { of: [id] },
  );
  if (!answer || answer.permit.person_id !== id || answer.permit.stands) return null;
  if (isSignedFor(answer.cuts, job_id, Date.now())) return null;
  const { at_cut } = words.permit;
  return <StandBy job_id={job_id} title={at_cut.title} lead={at_cut.lead} onSigned={() => {}} />;
}

/** A refusal for want of a permit is no error: a teacher signs, and it is sent again. */
export function TeacherSigns({
  trouble,
  job_id,
  onSigned,
}: {
  trouble: Trouble | null;
  job_id: string;
  onSigned: () => void;
}) {
  if (!trouble || !asksTeacher(trouble.code)) return null;
  return <StandBy job_id={job_id} lead={trouble.message} kept onSigned={onSigned} />;
}

/** The same for what was ticked at the lathe and waits in the outbox. */
export function TeacherSignsWaiting({ job_id }: { job_id: string }) {
  const waiting = outbox.refused.value.filter((one) => isOfCut(one, job_id) && asksTeacher(one.refusal?.code ?? ''));
  const [first] = waiting;
  if (!first) return null;
  return (
    <StandBy
      job_id={job_id}
      lead={first.refusal?.message ?? ''}
      kept
      onSigned={() => {
        for (const one of waiting) outbox.again(one.id, one.sent.body);
      }}
    />
  );
}

const isOfCut = (entry: Entry, job_id: string) =>
  entry.job_id === job_id && (entry.about === 'step' || entry.about === 'pass');

interface StandByProps {
  job_id: string;
  title?: string;
  lead: string;
  kept?: boolean;
  onSigned: () => void;
}

/** The shop refuses a student's own signature, and so asks a teacher at this tablet for theirs. */
function StandBy({ job_id, title, lead, kept, onSigned }: StandByProps) {
  const { at_cut } = words.permit;
  const saving = useSaving();
  const { draft, change, drop } = useKept(`stand_by.${job_id}`, () => ({ id: newId() }));
  const sign = () =>
    saving.run(async () => {
      const person_id = person.value?.id;
      if (!person_id) return;
      const { id } = draft;
      // Kept until the shop has answered: an answer that is lost on its way does not sign twice.
      change({ id });
      await call('post', '/supervised-cuts', { body: { id, person_id, job_id, note: '' } });
      drop();
      onSigned();
    });
  return (
    <section class="doubt no-permit" role={title ? undefined : 'status'} aria-label={title ?? at_cut.signs}>
      {title ? <h2>{title}</h2> : null}
      <p>{capital(lead)}</p>
      {kept ? <p class="small soft">{at_cut.kept}</p> : null}
      <div class="row">
        <button type="button" disabled={saving.busy} onClick={() => void sign()}>
          {at_cut.signs}
        </button>
        <a class="button plain" href="/permit">
          {at_cut.to_permit}
        </a>
      </div>
      <TroubleLine text={saving.trouble?.message} />
    </section>
  );
}
