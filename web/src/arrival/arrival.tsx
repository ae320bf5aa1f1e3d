import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Job, JobFile } from '../api/schema';
import { SameVehicle } from '../beside/beside';
import { Conflict } from '../conflict/conflict';
import { type Merge, sameJson } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { type Saving, useSaving, wrongElsewhere } from '../controls/saving';
import { useWide } from '../controls/wide';
import { go } from '../route/router';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { isDrum } from '../show/part_kind';
import { dropDraft, keepDraft, readDraft } from '../state/drafts';
import { jobFile, parts, refreshJob, sealed } from '../state/job';
import { person, shop } from '../state/shop';
import { words } from '../words';
import './arrival.css';
import { TroubleLine } from '../controls/trouble_line';
import { type Block, blocks } from './blocks';
import { type ArrivalDraft, type DraftFault, draftFaults, draftOf, emptyDraft, jobOf, partsOf } from './draft';
import { nameOfField, showField } from './fields';

const DRAFT = 'arrival';

/** A new job: nothing is lost by a reload, and sending it twice opens it once. */
export function NewJob() {
  const lathes = (shop.value?.lathes ?? []).filter((one) => one.active);
  const start = () => emptyDraft(newId, person.value?.id ?? null, lathes.length === 1 ? (lathes[0]?.id ?? null) : null);
  const [draft, setDraft] = useState(() => readDraft(localStorage, DRAFT, start()));
  const saving = useSaving();
  const change = (part: Partial<ArrivalDraft>) => {
    const next = { ...draft, ...part };
    setDraft(next);
    keepDraft(localStorage, DRAFT, next);
  };
  const open = () =>
    saving.run(async () => {
      const file = await call('post', '/jobs', { body: { job: jobOf(draft), parts: partsOf(draft) } });
      dropDraft(localStorage, DRAFT);
      go(`/jobs/${file.job.number}/limits`);
    });
  return (
    <Asked
      title={words.arrival.new_title}
      draft={draft}
      change={change}
      saving={saving}
      finish={{ word: words.arrival.open, act: open }}
      note={<p class="small soft">{words.arrival.kept}</p>}
    />
  );
}

/** Where it goes on to once all is kept. */
type Onward = 'limits' | 'detective';

/** The same questions of a job that is open already. */
export function Arrival() {
  const file = jobFile.value;
  return file ? <OpenedJob key={file.job.id} file={file} /> : null;
}

function OpenedJob({ file }: { file: JobFile }) {
  const kept = `${DRAFT}.${file.job.id}`;
  const [start] = useState(() => startOf(file, kept));
  const [base, setBase] = useState(start.base);
  const [draft, setDraft] = useState(start.draft);
  const [merge, setMerge] = useState<Merge<Job> | null>(null);
  const saving = useSaving();
  const put = (body: Job) => call('put', '/jobs/{job_id}', { path: { job_id: body.id }, body });
  const [to, setTo] = useState<Onward>('limits');
  const save = (from: Job, mine: Job, next: Onward = to) =>
    saving.run(async () => {
      const outcome = await saveMerging(from, mine, put, () => true);
      setTo(next);
      if ('merge' in outcome) {
        setMerge(outcome.merge);
        return;
      }
      setMerge(null);
      await saveParts();
      await refreshJob();
      dropDraft(localStorage, kept);
      setBase(jobFile.value?.job ?? file.job);
      go(stepAddress(file.job.number, next));
    });
  const saveParts = async () => {
    for (const part of file.parts) {
      const wanted = { ...part, construction: draft.construction, vented: draft.vented };
      if (wanted.construction === part.construction && wanted.vented === part.vented) continue;
      const path = { job_id: file.job.id, part_id: part.id };
      await saveMerging(
        part,
        wanted,
        (body) => call('put', '/jobs/{job_id}/parts/{part_id}', { path, body }),
        () => true,
      );
    }
  };
  const mine = (): Job => ({ ...base, ...jobOf(draft) });
  const toDetective = () => {
    const changed = !sameJson(draft, draftOf({ ...file, job: base }));
    if (changed) void save(base, mine(), 'detective');
    else go(stepAddress(file.job.number, 'detective'));
  };
  const change = (part: Partial<ArrivalDraft>) => {
    const next = { ...draft, ...part };
    setDraft(next);
    keepDraft(localStorage, kept, { base, draft: next });
  };
  return (
    <>
      <Asked
        title={words.arrival.title}
        draft={draft}
        change={change}
        saving={saving}
        finish={sealed.value ? null : { word: words.arrival.save, act: () => save(base, mine(), 'limits') }}
        detective={toDetective}
        note={<SameVehicle file={file} open={!sealed.value} />}
        opened
      />
      {merge ? (
        <Conflict
          merge={merge}
          nameOf={nameOfField}
          show={showField}
          onClose={() => setMerge(null)}
          onSettled={(settled) => {
            setDraft(draftOf({ ...file, job: settled }));
            save({ ...settled }, settled);
          }}
        />
      ) : null}
    </>
  );
}

/** What was half typed here, with the job as it stood when that began; a sealed job is shown as it is. */
function startOf(file: JobFile, kept: string): { base: Job; draft: ArrivalDraft } {
  const present = { base: file.job, draft: draftOf(file) };
  if (file.job.state === 'sealed') return present;
  const { base, draft } = readDraft(localStorage, kept, present);
  return { base, draft: { ...present.draft, ...draft } };
}

interface AskedProps {
  title: string;
  draft: ArrivalDraft;
  change: (part: Partial<ArrivalDraft>) => void;
  saving: Saving;
  finish: { word: string; act: () => void } | null;
  /** On to what is felt, with what is typed here kept first. */
  detective?: () => void;
  note?: ComponentChildren;
  opened?: boolean;
}

/** The question blocks: all on one calm page where there is room, one at a time where there is not. */
function Asked({ title, draft, change, saving, finish, detective, note, opened = false }: AskedProps) {
  const wide = useWide();
  const [at, setAt] = useState(0);
  const [asked, setAsked] = useState<readonly DraftFault[]>([]);
  const shown = wide ? blocks : blocks.slice(at, at + 1);
  const last = wide || at === blocks.length - 1;
  const faults = draftFaults(draft);
  const forward = () => {
    const about = shown.flatMap((block) => block.faults);
    const wrong = faults.filter((fault) => about.includes(fault));
    setAsked(wrong);
    if (wrong.length > 0) return;
    if (!last) setAt(at + 1);
    else if (finish) whole(finish.act);
  };
  const whole = (act: () => void) => {
    setAsked(faults);
    if (faults.length === 0) act();
    else setAt(blocks.findIndex((block) => block.faults.some((fault) => faults.includes(fault))));
  };
  const elsewhere = wrongElsewhere(
    saving.trouble,
    shown.flatMap((block) => block.fields),
  );
  return (
    <Screen
      name="arrival"
      title={title}
      next={
        finish || !last ? (
          <button type="button" class="main" disabled={saving.busy} onClick={forward}>
            {last ? finish?.word : words.arrival.next}
          </button>
        ) : null
      }
      aside={
        !wide && at > 0 ? (
          <button type="button" onClick={() => setAt(at - 1)}>
            {words.arrival.back}
          </button>
        ) : opened && !isDrum(parts.value[0]) ? (
          <a class="button" href={stepAddress(jobFile.value?.job.number, 'car')}>
            {words.car.to_car}
          </a>
        ) : null
      }
    >
      {wide ? null : <p class="soft small">{words.arrival.progress(at + 1, blocks.length)}</p>}
      <TroubleLine text={elsewhere} />
      <div class="blocks">
        {shown.map((block) => (
          <BlockPart
            key={block.name}
            block={block}
            props={{
              draft,
              change,
              faults: asked.filter((fault) => faults.includes(fault)),
              trouble: saving.trouble,
              opened,
              detective: finish && detective ? () => whole(detective) : null,
              onEnter: wide ? undefined : forward,
            }}
          />
        ))}
      </div>
      {note}
    </Screen>
  );
}

function BlockPart({ block, props }: { block: Block; props: Parameters<Block['body']>[0] }) {
  const Body = block.body;
  return (
    <section class={`block block-${block.name}`} aria-label={block.question(props.draft)}>
      <h2>{block.question(props.draft)}</h2>
      <Body {...props} />
    </section>
  );
}
