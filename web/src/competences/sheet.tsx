import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { Competence, Evidence, StudyView } from '../api/schema';
import { OnlyLeads } from '../class/only_leads';
import { SecondWord } from '../class/second_word';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { ask, place } from '../route/router';
import { Screen } from '../shell/screen';
import { moment } from '../show/time';
import { useStanding } from '../state/answer';
import { EVIDENCE } from '../state/kinds';
import { leads } from '../state/role';
import { person, personName, shop } from '../state/shop';
import { words } from '../words';
import '../shop/shop.css';
import './competences.css';
import { EvidenceForm } from './evidence_form';
import { LevelMark, levelWord } from './level_mark';
import { newestFirst, reached, shownCompetences, signedCount } from './levels';

export const OwnEvidence = () => <Sheet key={person.value?.id} person_id={person.value?.id ?? ''} own />;
export function EvidenceOf({ person: person_id = '' }: Record<string, string>) {
  const own = person_id === person.value?.id;
  return leads.value || own ? <Sheet key={person_id} {...{ person_id, own }} /> : <OnlyLeads />;
}

const FEW_JOBS = 200;

/** One person: each competence with the level reached and all that shows it. */
function Sheet({ person_id, own }: { person_id: string; own: boolean }) {
  const { competences: said } = words;
  const { answer, trouble, again } = useStanding(async () => {
    const [competences, evidence, studies, open, sealed] = await Promise.all([
      call('get', '/competences'),
      call('get', '/evidence', { query: { person_id } }),
      call('get', '/studies'),
      call('get', '/jobs', { query: { state: 'open', limit: FEW_JOBS } }),
      call('get', '/jobs', { query: { state: 'sealed', limit: FEW_JOBS } }),
    ]);
    const numbers = new Map([...open.lines, ...sealed.lines].map(({ job }) => [job.id, job.number ?? 0]));
    return { competences, evidence, studies, numbers };
  }, EVIDENCE);
  const known = shop.value?.people.some((one) => one.id === person_id);
  const shown = shownCompetences(answer?.competences ?? [], answer?.evidence ?? []);
  const sheet = `/api/v1/people/${person_id}/evidence`;
  return (
    <Screen
      name="competences"
      title={!known ? words.classes.student.gone : own ? said.own_title : said.title_of(personName(person_id))}
      next={
        <a class="button main later" href={own ? '/permit' : `/class/${person_id}`}>
          {own ? words.permit.title : personName(person_id)}
        </a>
      }
      aside={
        <>
          <a class="button" href={`${sheet}.pdf`} target="_blank" rel="noreferrer">
            {said.pdf}
          </a>
          <a class="button" href={`${sheet}.xlsx`} download>
            {said.xlsx}
          </a>
        </>
      }
    >
      <TroubleLine text={trouble?.message} />
      {answer ? (
        <>
          <p class="sheet-count figures">{said.count(signedCount(shown, answer.evidence, person_id), shown.length)}</p>
          {shown.length === 0 ? (
            <p>
              {said.none} <a href="/competences">{said.list_title}</a>
            </p>
          ) : null}
          <ul class="shown-list">
            {shown.map((one) => (
              <li key={one.id}>
                <OneCompetence {...{ one, person_id, own, ...answer }} onChanged={again} />
              </li>
            ))}
          </ul>
        </>
      ) : trouble ? null : (
        <p class="soft">{said.waiting}</p>
      )}
    </Screen>
  );
}

interface OneProps {
  one: Competence;
  person_id: string;
  own: boolean;
  evidence: readonly Evidence[];
  studies: readonly StudyView[];
  numbers: ReadonlyMap<string, number>;
  onChanged: () => void;
}

function OneCompetence({ one, person_id, own, evidence, studies, numbers, onChanged }: OneProps) {
  const { competences: said } = words;
  const best = reached(evidence, { person_id, competence_id: one.id });
  const notes = newestFirst(evidence.filter((shown) => shown.competence_id === one.id));
  const open = place.value.query.of === one.id;
  return (
    <section class="one-competence" aria-label={one.name}>
      <button
        type="button"
        class="plain competence-head"
        aria-expanded={open}
        onClick={() => ask({ of: open ? '' : one.id })}
      >
        <LevelMark level={best?.level ?? null} />
        <span class="competence-name">
          <span>{one.name}</span>
          <span class="small soft">{one.words}</span>
        </span>
        <span class="competence-level">
          <span>{levelWord(best?.level ?? null)}</span>
          {best?.signed_by_person_id ? (
            <span class="small soft">{said.signed_by(personName(best.signed_by_person_id), when(best))}</span>
          ) : null}
        </span>
      </button>
      {open ? (
        <div class="competence-open">
          {notes.length > 0 ? <h2>{said.history(notes.length)}</h2> : null}
          <ul class="evidence-notes">
            {notes.map((shown) => (
              <li key={shown.id}>
                <Note {...{ shown, studies, numbers, own, onChanged }} />
              </li>
            ))}
          </ul>
          {own || leads.value ? (
            <EvidenceForm {...{ person_id, own, studies }} competence_id={one.id} onSaved={onChanged} />
          ) : null}
        </div>
      ) : null}
    </section>
  );
}

const when = (one: Evidence) => (one.at ? moment(one.at, new Date()) : '');

interface NoteProps {
  shown: Evidence;
  studies: readonly StudyView[];
  numbers: ReadonlyMap<string, number>;
  own: boolean;
  onChanged: () => void;
}

function Note({ shown, studies, numbers, own, onChanged }: NoteProps) {
  const { competences: said } = words;
  const saving = useSaving();
  const [sure, setSure] = useState(false);
  const gone = !!shown.withdrawn_at;
  const may = !gone && (leads.value || (own && !shown.signed_by_person_id));
  const number = shown.job_id ? numbers.get(shown.job_id) : undefined;
  const withdraw = () =>
    saving.run(async () => {
      await call('post', '/evidence/{evidence_id}/withdraw', { path: { evidence_id: shown.id } });
      onChanged();
    });
  return (
    <div class={gone ? 'note-line note-gone' : 'note-line'}>
      <LevelMark level={shown.level} />
      <div>
        <p>
          <span>{levelWord(shown.level)}</span>{' '}
          <span class="small soft">
            {shown.signed_by_person_id
              ? said.signed_by(personName(shown.signed_by_person_id), when(shown))
              : said.noted(when(shown))}
          </span>
        </p>
        {shown.note ? <p>{shown.note}</p> : null}
        <p class="small">
          {number ? <a href={`/jobs/${number}/record`}>{said.on_job(number)}</a> : null}
          {shown.job_id && !number ? said.on_job_plain : null}{' '}
          {shown.study_id ? (
            <a href={`/studies/${shown.study_id}`}>
              {said.in_study(studies.find(({ study }) => study.id === shown.study_id)?.study.name ?? '')}
            </a>
          ) : null}{' '}
          {shown.practice_run_id ? <a href={`/practice/${shown.practice_run_id}`}>{said.at_practice}</a> : null}
        </p>
        {gone ? (
          <p class="small soft">
            {said.withdrawn(personName(shown.withdrawn_by_person_id), moment(shown.withdrawn_at ?? '', new Date()))}
          </p>
        ) : null}
        {sure && may ? (
          <SecondWord
            title={said.withdraw_sure(levelWord(shown.level))}
            yes={said.withdraw_named(levelWord(shown.level))}
            no={words.classes.keep}
            saving={saving}
            trouble={saving.trouble?.message}
            onYes={withdraw}
            onNo={() => setSure(false)}
          >
            <p>{said.withdraw_means}</p>
          </SecondWord>
        ) : null}
      </div>
      {may && !sure ? (
        <button
          type="button"
          class="plain"
          aria-label={said.withdraw_named(levelWord(shown.level))}
          onClick={() => setSure(true)}
        >
          {said.withdraw}
        </button>
      ) : null}
    </div>
  );
}
