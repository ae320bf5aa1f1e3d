import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Cut as CutOnRecord, JobFile, Lathe, Part } from '../api/schema';
import { Caution } from '../controls/caution';
import { Field } from '../controls/field';
import { useSaving } from '../controls/saving';
import { partHere, planSettled, useNamedPart } from '../guide/bench';
import { facesOf } from '../guide/faces';
import { DialBasis } from '../plan/dial_basis';
import { ask } from '../route/router';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { dialsOf } from '../show/dials';
import { lengthOfMm } from '../show/length';
import { onRadius } from '../show/on_radius';
import { isDrum } from '../show/part_kind';
import { moment } from '../show/time';
import { assessment, jobFile, refreshAssessment, refreshJob, sealed } from '../state/job';
import { personName, shop } from '../state/shop';
import { judgedOf } from '../verdict/answer';
import { words } from '../words';
import './cut.css';
import { TroubleLine } from '../controls/trouble_line';
import { asksTeacher } from './asks_teacher';
import { machineToFor, marksOf, oddMarks, type Plan, planFor, planOfPasses } from './marks';
import { NoPermit, TeacherSigns } from './no_permit';

const FINE = 1000;

/** The plan in marks, the cautions before the switch, and what the dials were turned by. */
export function CutByHand() {
  const file = jobFile.value;
  const part = file ? partHere(file) : null;
  useNamedPart(part);
  if (!file || !part) return null;
  const decided = file.decisions.at(-1)?.action === 'cut';
  if (!decided && file.cuts.length === 0) return <NoCut file={file} />;
  return (
    <CutOf
      key={part.id}
      file={file}
      part={part}
      onPart={(id) => ask({ part: file.parts.find((one) => one.id === id)?.side ?? '' })}
    />
  );
}

function NoCut({ file }: { file: JobFile }) {
  return (
    <Screen
      name="cut"
      title={words.cut.none}
      next={
        <a class="button main" href={stepAddress(file.job.number, 'verdict')}>
          {words.cut.to_decide}
        </a>
      }
    >
      {null}
    </Screen>
  );
}

function CutOf({ file, part, onPart }: { file: JobFile; part: Part; onPart: (id: string) => void }) {
  const { cut } = words;
  const lathe = shop.value?.lathes.find((one) => one.id === file.job.lathe_id) ?? null;
  const verdict = [file.decisions, judgedOf(assessment.value), part, file.parts] as const;
  const settled = planSettled(file, part);
  const plan = settled ? planOfPasses(settled, file.passes, machineToFor(...verdict)) : planFor(...verdict);
  const done = file.cuts.filter((one) => one.part_id === part.id);
  const waiting = file.parts.find((one) => one.id !== part.id && !file.cuts.some((c) => c.part_id === one.id));
  const [open, setOpen] = useState(done.length === 0 && !sealed.value);
  const draft = useCutDraft(file, part, () => setOpen(false));
  return (
    <Screen
      name="cut"
      title={cut.title}
      next={
        open ? (
          <button type="button" class="main" disabled={draft.saving.busy} onClick={draft.record}>
            {cut.record}
          </button>
        ) : done.length === 0 ? null : waiting ? (
          <button type="button" class="main" onClick={() => onPart(waiting.id)}>
            {cut.rotor[waiting.side]}
          </button>
        ) : (
          <a class="button main" href={stepAddress(file.job.number, 'after')}>
            {cut.to_measure}
          </a>
        )
      }
    >
      {file.parts.length > 1 ? (
        <Choice
          label={cut.title}
          value={part.id}
          options={file.parts.map((one) => ({ value: one.id, label: cut.rotor[one.side] }))}
          onChange={onPart}
        />
      ) : (
        <h2>{cut.rotor[part.side]}</h2>
      )}
      <NoPermit job_id={file.job.id} />
      <div class="cut">
        <PlanOf part={part} plan={plan} settled={settled !== null} lathe={lathe} number={file.job.number} />
        <Caution title={cut.cautions_title} source={cut.cautions_source}>
          <ul class="cautions">
            {cut.cautions.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </Caution>
        <div class="cut-record">
          {done.length > 0 ? <Done part={part} cuts={done} plan={plan} /> : null}
          {open ? <RecordCut job_id={file.job.id} part={part} plan={plan} draft={draft} /> : null}
          {!open && !sealed.value ? (
            <>
              <p class="small soft">
                {cut.cool} {cut.cool_source}
              </p>
              <button type="button" onClick={() => setOpen(true)}>
                {cut.again}
              </button>
            </>
          ) : null}
        </div>
      </div>
    </Screen>
  );
}

interface PlanProps {
  part: Part;
  plan: Plan | null;
  /** Whether passes were settled on; else it is the verdict's least cut. */
  settled: boolean;
  lathe: Lathe | null;
  number: number | undefined;
}

function PlanOf({ part, plan, settled, lathe, number }: PlanProps) {
  const { cut } = words;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const how = { unit, resolution_nm: FINE };
  const bench = assessment.value?.bench;
  const dials = dialsOf(bench, lathe);
  const depth = (marks: number, um: number) =>
    isDrum(part) ? onRadius(marks * um, how) : lengthOfMm((marks * um) / 1000, how);
  return (
    <section class="plan" aria-label={cut.title}>
      {plan ? (
        <>
          <p class="soft">{settled ? cut.lead_settled : cut.lead}</p>
          <div class="dials">
            {facesOf(part).map((face) => (
              <div class="dial" key={face}>
                <span>{cut[face]}</span>
                <span class="cut-marks figures">{plan[face]}</span>
                <span>
                  {cut.marks(plan[face])}, <span class="figures">{depth(plan[face], dials[`${face}_um`])}</span>
                </span>
              </div>
            ))}
          </div>
          <p>
            {cut.leaves(lengthOfMm(plan.final_mm, how))}
            {plan.machine_to_mm === null ? '' : `, ${cut.stop_at(lengthOfMm(plan.machine_to_mm, how))}`}
          </p>
        </>
      ) : null}
      <DialBasis {...{ part, bench, lathe, unit }} />
      {lathe ? null : (
        <p class="small">
          {cut.no_lathe} <a href={`/jobs/${number ?? ''}/arrival`}>{cut.choose_lathe}</a>
        </p>
      )}
    </section>
  );
}

function Done({ part, cuts, plan }: { part: Part; cuts: readonly CutOnRecord[]; plan: Plan | null }) {
  const { cut } = words;
  return (
    <section aria-label={cut.on_record}>
      <h2>{cut.on_record}</h2>
      <ul>
        {cuts.map((one) => (
          <li key={one.id} class="done-cut">
            <span class="figures">
              {facesOf(part)
                .map((face, i) => `${i ? cut[face].toLowerCase() : cut[face]} ${one[`${face}_marks`]}`)
                .join(', ')}
            </span>
            <span class="small soft">
              {[
                plan && cuts.length === 1 ? differs(one, plan) : '',
                one.note,
                `${personName(one.by_person_id)}, ${moment(one.at, new Date())}`,
              ]
                .filter(Boolean)
                .join(' · ')}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function differs(done: CutOnRecord, plan: Plan): string {
  const by = done.outboard_marks + done.inboard_marks - plan.outboard - plan.inboard;
  return by === 0 ? words.cut.as_planned : words.cut.plan_differs(by);
}

interface RecordProps {
  job_id: string;
  part: Part;
  plan: Plan | null;
  draft: ReturnType<typeof useCutDraft>;
}

/** What is typed of a cut, and its saving: once, however often it is sent. */
function useCutDraft(file: JobFile, part: Part, onRecorded: () => void) {
  const [texts, setTexts] = useState(NOTHING_TYPED);
  const [asked, setAsked] = useState(0);
  const [id, setId] = useState(newId);
  const saving = useSaving();
  const marks = { outboard: marksOf(texts.outboard), inboard: isDrum(part) ? 0 : marksOf(texts.inboard) };
  const record = () => {
    const { outboard: outboard_marks, inboard: inboard_marks } = marks;
    setAsked(asked + 1);
    if (outboard_marks === null || inboard_marks === null) return;
    void saving.run(async () => {
      const body = { id, part_id: part.id, outboard_marks, inboard_marks, note: texts.note.trim() };
      await call('post', '/jobs/{job_id}/cuts', { path: { job_id: file.job.id }, body });
      await refreshJob();
      await refreshAssessment();
      setId(newId());
      setTexts(NOTHING_TYPED);
      setAsked(0);
      onRecorded();
    });
  };
  const wrong = (face: 'outboard' | 'inboard') =>
    (asked > 0 || texts[face].trim() !== '') && marks[face] === null ? words.cut.whole_marks : undefined;
  const type = (name: keyof typeof NOTHING_TYPED) => (text: string) => setTexts({ ...texts, [name]: text });
  return { texts, type, marks, wrong, record, saving, asked };
}

/** What asks for a second look before it is recorded; nothing where the marks are as they may be. */
function doubtOf(
  { outboard, inboard }: Record<'outboard' | 'inboard', number | null>,
  plan: Plan | null,
  faces: number,
): string {
  if (outboard === null || inboard === null) return '';
  const odd = oddMarks({ outboard, inboard }, plan, faces);
  if (odd === 'far_off' && plan) return words.cut.far_off(plan.outboard, plan.inboard);
  return odd === 'no_side' || odd === 'one_side' ? words.cut[odd] : '';
}

const NOTHING_TYPED = { outboard: '', inboard: '', note: '' };

function RecordCut({ job_id, part, plan, draft }: RecordProps) {
  const { cut } = words;
  const { texts, type, marks, wrong, record, saving, asked } = draft;
  const box = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    if (asked > 0) box.current?.querySelector<HTMLInputElement>('[aria-invalid]')?.focus();
  }, [asked]);
  const doubt = doubtOf(marks, plan, facesOf(part).length);
  return (
    <section class="record-cut" aria-label={cut.done_title} ref={box}>
      <h2>{cut.done_title}</h2>
      <p class="soft">{cut.done_lead}</p>
      <div class="dials">
        {facesOf(part).map((face) => (
          <Field
            key={face}
            label={cut[face]}
            hint={plan ? String(plan[face]) : undefined}
            value={texts[face]}
            digits
            inputMode="numeric"
            error={wrong(face)}
            onInput={type(face)}
            onEnter={record}
          />
        ))}
      </div>
      {doubt ? <p class="doubt">{doubt}</p> : null}
      <Field label={cut.note} hint={cut.note_hint} value={texts.note} onInput={type('note')} onEnter={record} />
      <TroubleLine text={asksTeacher(saving.trouble?.code ?? '') ? null : saving.trouble?.message} />
      <TeacherSigns trouble={saving.trouble} job_id={job_id} onSigned={record} />
    </section>
  );
}
