import { call } from '../api/client';
import { newId } from '../api/ids';
import type { EvidenceLevel, StudyView } from '../api/schema';
import { Field } from '../controls/field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { jobNamed } from '../permit/job_named';
import { readEndedRuns } from '../practice/api';
import { Choice } from '../shell/choice';
import { calendarDay } from '../show/time';
import { useAnswer } from '../state/answer';
import { useKept } from '../state/kept';
import { leads } from '../state/role';
import { person } from '../state/shop';
import { words } from '../words';
import { LEVELS } from './levels';

interface Props {
  person_id: string;
  competence_id: string;
  own: boolean;
  studies: readonly StudyView[];
  onSaved: () => void;
}

const FIELDS = ['job_id', 'study_id', 'practice_run_id', 'note', 'level'];
/** So many runs are offered, the newest first. */
const OFFERED = 6;

/** Notes what was shown, with the job, the study or the practice run behind it. The highest level is signed by whoever leads. */
export function EvidenceForm({ person_id, competence_id, own, studies, onSaved }: Props) {
  const { competences: said } = words;
  const maySign = leads.value && !own;
  const { draft, change, drop } = useKept(`evidence.${person_id}.${competence_id}`, () => ({
    id: newId(),
    level: (maySign ? 'signed' : 'with_help') as EvidenceLevel,
    job: '',
    study_id: '',
    practice_run_id: '',
    note: '',
  }));
  const saving = useSaving();
  const { answer: runs } = useAnswer(() => readEndedRuns(person_id), [person_id]);
  const signing = draft.level === 'signed';
  const mine = studies.filter(({ study }) => study.person_ids.includes(person_id));
  const submit = (event: Event) => {
    event.preventDefault();
    void saving.run(async () => {
      const job_id = await jobNamed(draft.job, said.job_unknown);
      const { id, level } = draft;
      const body = {
        id,
        competence_id,
        person_id,
        level,
        job_id,
        study_id: draft.study_id || null,
        practice_run_id: draft.practice_run_id || null,
        note: draft.note.trim(),
      };
      await call('post', '/evidence', { body });
      drop();
      onSaved();
    });
  };
  return (
    <form class="fields evidence-form" onSubmit={submit}>
      <h2>{said.add_evidence}</h2>
      <Choice
        shown
        label={said.change_level}
        value={draft.level}
        options={LEVELS.map((value) => ({
          value,
          label: said.level[value],
          disabled: value === 'signed' && !maySign,
        }))}
        onChange={(level) => change({ level })}
      />
      {wrongWith(saving.trouble, 'level') ? <TroubleLine text={wrongWith(saving.trouble, 'level')} /> : null}
      {maySign ? null : <p class="small soft">{said.only_leads}</p>}
      <Field
        label={said.job}
        hint={said.job_hint}
        value={draft.job}
        digits
        inputMode="numeric"
        maxLength={12}
        error={wrongWith(saving.trouble, 'job_id')}
        onInput={(job) => change({ job })}
      />
      {mine.length > 0 ? (
        <Choice
          shown
          label={said.study}
          value={draft.study_id}
          options={[
            { value: '', label: said.study_none },
            ...mine.map(({ study }) => ({ value: study.id, label: study.name })),
          ]}
          onChange={(study_id) => change({ study_id })}
        />
      ) : null}
      {runs && runs.length > 0 ? (
        <Choice
          shown
          label={said.practice}
          value={draft.practice_run_id}
          options={[
            { value: '', label: said.practice_none },
            ...runs.slice(0, OFFERED).map((run) => ({
              value: run.id,
              label: said.practice_run(run.set_name ?? '', calendarDay(run.begun_at)),
              note: said.practice_points(Math.round(run.points ?? 0)),
            })),
          ]}
          onChange={(practice_run_id) => change({ practice_run_id })}
        />
      ) : null}
      <Field
        label={said.note}
        hint={said.note_hint}
        value={draft.note}
        error={wrongWith(saving.trouble, 'note')}
        onInput={(note) => change({ note })}
      />
      {signing ? (
        <p class="signs">{said.signs(person.value?.name ?? '', calendarDay(new Date().toISOString()))}</p>
      ) : null}
      <TroubleLine text={wrongElsewhere(saving.trouble, FIELDS)} />
      <button type="submit" disabled={saving.busy}>
        {signing ? said.sign_off : said.save}
      </button>
    </form>
  );
}
