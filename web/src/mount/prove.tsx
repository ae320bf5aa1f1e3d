import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { JobFile, Mount, MountProof, Part } from '../api/schema';
import { Field } from '../controls/field';
import { Opens } from '../controls/opens';
import { wrongElsewhere, wrongWith } from '../controls/saving';
import { hungPiece, usePegboard } from '../pegboard/board_state';
import { ask } from '../route/router';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { moment } from '../show/time';
import { planOf, sealed } from '../state/job';
import { personName, shop } from '../state/shop';
import { words } from '../words';
import { CheckList } from './check_list';
import { Indicator } from './indicator';
import { mountedOf } from './mounted';
import { adviceOf } from './proof_advice';
import { useProofDraft } from './proof_draft';
import { figuresOf, ProofResult, runoutText } from './proof_result';
import { Scratch } from './scratch';
import { StackList } from './stack_list';
import { Drawn, NutCaution } from './stacks';

interface Props {
  file: JobFile;
  part: Part;
  mount: Mount;
  which: ComponentChildren;
}

const ALLOWED_UM = 50;

/** The stack is on: seen to, and read. What was read and goes on is shown until it is read anew. */
export function Prove(props: Props) {
  const { file, part } = props;
  const { last } = mountedOf(file, part.id);
  const [anew, setAnew] = useState(false);
  if (last?.goes_on && !anew) return <Proven {...props} proof={last} onAnew={() => setAnew(true)} />;
  if (sealed.value) return <Proven {...props} proof={last} onAnew={null} />;
  return <Proving {...props} onRecorded={() => setAnew(false)} />;
}

function Proven({
  file,
  part,
  mount,
  which,
  proof,
  onAnew,
}: Props & { proof: MountProof | null; onAnew: (() => void) | null }) {
  const words_ = words.mount.proof;
  return (
    <Screen
      name="mount"
      title={words.mount.proof_title}
      next={
        <a class="button main" href={`/jobs/${file.job.number}/plan?part=${part.side}`}>
          {words_.to_plan}
        </a>
      }
      aside={
        onAnew ? (
          <button type="button" onClick={onAnew}>
            {words_.again}
          </button>
        ) : null
      }
    >
      {which}
      {proof ? (
        <>
          <ProofResult figures={figuresOf(proof)} allowed_um={proof.allowed_um} oneMark={proof.marks.length === 1} />
          {proof.reason ? <p class="doubt">{words_.went_on(proof.reason)}</p> : null}
          <p class="small soft">
            {personName(proof.by_person_id)}, {moment(proof.at, new Date())}
          </p>
        </>
      ) : null}
      <OnArbor {...{ file, part, mount }} />
    </Screen>
  );
}

function Proving({ file, part, mount, which, onRecorded }: Props & { onRecorded: () => void }) {
  const { proof } = words.mount;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const draft = useProofDraft(file, part, mount.id, unit);
  const [anyway, setAnyway] = useState(false);
  const [reason, setReason] = useState('');
  const lathe = shop.value?.lathes.find((one) => one.id === mount.lathe_id) ?? null;
  const allowed_um = shop.value?.settings.cutting?.mount_runout_max_um ?? ALLOWED_UM;
  const { figures, saving, texts } = draft;
  const advice = figures ? adviceOf(figures, allowed_um) : null;
  const goesOn = advice === 'go_on' || anyway;
  const record = (goes: boolean, why: string) => {
    void draft.save(goes, why).then((went) => {
      if (!went) return;
      setAnyway(false);
      onRecorded();
      if (!goes) ask({ part: part.side, view: 'stack' });
    });
  };
  const recordShown = () => {
    if (figures) record(goesOn, advice === 'go_on' ? '' : reason);
  };
  const openAnyway = () => {
    setAnyway(true);
    if (advice === 'rotor' && reason === '') setReason(proof.reason_rotor);
  };
  /** Enter on the last reading records what is within the rule; what is over it is looked at first. */
  const onEnter = () => {
    void draft.now().then((said) => {
      if (said && adviceOf(said, allowed_um) === 'go_on') record(true, '');
    });
  };
  return (
    <Screen
      name="mount"
      title={words.mount.proof_title}
      next={
        <button type="button" class="main" disabled={!figures || saving.busy} onClick={recordShown}>
          {!figures ? proof.type_first : goesOn ? proof.record_go : proof.record_again}
        </button>
      }
      aside={
        advice && advice !== 'go_on' && !anyway ? (
          <button type="button" onClick={openAnyway}>
            {proof.go_anyway}
          </button>
        ) : (
          <button type="button" onClick={() => ask({ part: part.side, view: 'stack' })}>
            {words.mount.stack.again}
          </button>
        )
      }
    >
      {which}
      <CheckList {...{ file, part, mount }} />
      <section class="proof" aria-label={words.mount.proof_title}>
        <Choice
          shown
          label={proof.how}
          value={texts.kind}
          options={(['indicator', 'scratch'] as const).map((value) => ({ value, label: proof[value] }))}
          onChange={(kind) => draft.change({ kind })}
        />
        {texts.kind === 'indicator' ? (
          <Indicator draft={draft} onEnter={onEnter} />
        ) : (
          <Scratch
            draft={draft}
            lathe={lathe}
            turning={planOf(part, 'before')?.turning ?? 'clockwise'}
            onEnter={onEnter}
          />
        )}
        {figures ? (
          <ProofResult
            figures={figures}
            allowed_um={allowed_um}
            oneMark={texts.kind === 'scratch' && figures.part_um === null && !figures.upper_bound}
          />
        ) : null}
        {anyway && advice !== 'go_on' ? (
          <Field
            label={proof.reason}
            value={reason}
            focused
            error={wrongWith(saving.trouble, 'reason')}
            onInput={setReason}
            onEnter={recordShown}
          />
        ) : null}
        {wrongElsewhere(saving.trouble, anyway ? ['reason'] : []) ? (
          <p class="trouble" role="alert">
            {saving.trouble?.message}
          </p>
        ) : null}
        <Earlier proofs={mountedOf(file, part.id).proofs} />
      </section>
      <OnArbor {...{ file, part, mount }} />
    </Screen>
  );
}

function Earlier({ proofs }: { proofs: readonly MountProof[] }) {
  const { proof } = words.mount;
  if (proofs.length === 0) return null;
  return (
    <section aria-label={proof.earlier}>
      <h3>{proof.earlier}</h3>
      <ul>
        {proofs.map((one) => (
          <li key={one.id} class="small figures">
            {proof.read_at(runoutText(one.runout_um), moment(one.at, new Date()))}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What is on the arbor, to look at again. */
function OnArbor({ file, part, mount }: Pick<Props, 'file' | 'part' | 'mount'>) {
  const { stack } = words.mount;
  const board = usePegboard();
  const lathe = shop.value?.lathes.find((one) => one.id === mount.lathe_id) ?? null;
  if (!board || !lathe) return null;
  const pieces = mount.piece_ids.map((id) => hungPiece(id)?.piece).filter((piece) => piece !== undefined);
  return (
    <Opens title={stack.recorded(personName(mount.by_person_id), moment(mount.at, new Date()))}>
      <Drawn ids={mount.piece_ids} {...{ file, part, lathe }} />
      <StackList pieces={pieces} why={mount.why} hubbed={part.construction === 'integral_hub'} />
      {mount.reason ? <p class="doubt">{mount.reason}</p> : null}
      <NutCaution lathe={lathe} />
    </Opens>
  );
}
