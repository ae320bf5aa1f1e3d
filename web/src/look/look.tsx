import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Finding, FindingKind, JobFile, Part, Side } from '../api/schema';
import { Caution } from '../controls/caution';
import { Opens } from '../controls/opens';
import { useSaving } from '../controls/saving';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { kindOf } from '../show/part_kind';
import { moment } from '../show/time';
import { jobFile, refreshJob, sealed } from '../state/job';
import { personName } from '../state/shop';
import { type PartKind, words } from '../words';
import { FindingSheet } from './finding_sheet';
import './look.css';

const KINDS = Object.keys(words.look.kinds) as FindingKind[];
/** What a part of this kind has not. */
const NOT_OF: Record<PartKind, readonly FindingKind[]> = {
  disc: [],
  drum: ['vent_rust', 'loose_hat'],
  drum_in_hat: ['broken_fin', 'vent_rust'],
};

const standing = (finding: Finding) => !finding.withdrawn_at;

/** Records and takes back what was seen on one rotor. */
function useFindings(file: JobFile, part: Part) {
  const [asking, setAsking] = useState<FindingKind | null>(null);
  const [id, setId] = useState(newId);
  const saving = useSaving();
  const keep = (kind: FindingKind, judgement: Finding['judgement'], note: string) =>
    saving.run(async () => {
      const body = { id, part_id: part.id, kind, judgement, note };
      await call('post', '/jobs/{job_id}/findings', { path: { job_id: file.job.id }, body });
      await refreshJob();
      setId(newId());
      setAsking(null);
    });
  const ask = (kind: FindingKind) => {
    saving.setTrouble(null);
    if (kind === 'nothing_found') void keep(kind, 'noted', '');
    else setAsking(kind);
  };
  const withdraw = (finding: Finding) =>
    saving.run(async () => {
      const path = { job_id: file.job.id, finding_id: finding.id };
      await call('post', '/jobs/{job_id}/findings/{finding_id}/withdraw', { path });
      await refreshJob();
    });
  return { asking, setAsking, saving, keep, ask, withdraw };
}

/** What can be seen and heard, rotor by rotor. */
export function Look() {
  const file = jobFile.value;
  const [side, setSide] = useState<Side>(file?.parts[0]?.side ?? 'left');
  const part = file?.parts.find((one) => one.side === side) ?? file?.parts[0];
  return file && part ? <LookAt key={part.id} file={file} part={part} onSide={setSide} /> : null;
}

interface LookAtProps {
  file: JobFile;
  part: Part;
  onSide: (side: Side) => void;
}

function LookAt({ file, part, onSide }: LookAtProps) {
  const { look } = words;
  const { asking, setAsking, saving, keep, ask, withdraw } = useFindings(file, part);
  return (
    <Screen
      name="look"
      title={look.title}
      next={
        <a class="button main" href={stepAddress(file.job.number, 'before')}>
          {words.shell.step.before}
        </a>
      }
    >
      <Caution title={look.dust.title} source={look.dust.source}>
        <p>{look.dust.text}</p>
      </Caution>
      {file.parts.length > 1 ? (
        <Choice
          label={look.title}
          value={part.side}
          options={file.parts.map((one) => ({ value: one.side, label: look.rotor[one.side] }))}
          onChange={onSide}
        />
      ) : (
        <h2>{look.rotor[part.side]}</h2>
      )}
      <p class="soft">{look.lead}</p>
      <Kinds file={file} part={part} busy={saving.busy} onAsk={ask} />
      <Opens title={look.ring.title}>
        <p>{look.ring.text}</p>
        <p class="small soft">{look.ring.source}</p>
      </Opens>
      {saving.trouble && !asking ? (
        <p class="trouble" role="alert">
          {saving.trouble.message}
        </p>
      ) : null}
      <Found file={file} onWithdraw={withdraw} />
      {asking ? (
        <FindingSheet
          kind={asking}
          busy={saving.busy}
          trouble={saving.trouble}
          onKeep={(judgement, note) => keep(asking, judgement, note)}
          onClose={() => setAsking(null)}
        />
      ) : null}
    </Screen>
  );
}

interface KindsProps {
  file: JobFile;
  part: Part;
  busy: boolean;
  onAsk: (kind: FindingKind) => void;
}

function Kinds({ file, part, busy, onAsk }: KindsProps) {
  const { look } = words;
  const found = (kind: FindingKind) =>
    file.findings.some((one) => standing(one) && one.part_id === part.id && one.kind === kind);
  return (
    <fieldset class="kinds" aria-label={look.rotor[part.side]}>
      {KINDS.filter((kind) => !NOT_OF[kindOf(part)].includes(kind)).map((kind) => (
        <button
          key={kind}
          type="button"
          class="kind"
          aria-pressed={found(kind)}
          disabled={sealed.value || busy}
          onClick={() => onAsk(kind)}
        >
          <span class="kind-name">{look.kinds[kind][0]}</span> <span class="small soft">{look.kinds[kind][1]}</span>
        </button>
      ))}
    </fieldset>
  );
}

function Found({ file, onWithdraw }: { file: JobFile; onWithdraw: (finding: Finding) => void }) {
  const { look } = words;
  return (
    <section class="found" aria-label={look.on_record}>
      <h2>{look.on_record}</h2>
      {file.findings.length === 0 ? <p class="soft">{look.nothing_yet}</p> : null}
      <ul>
        {file.findings.map((one) => (
          <FoundLine
            key={one.id}
            finding={one}
            parts={file.parts}
            onWithdraw={sealed.value ? null : () => onWithdraw(one)}
          />
        ))}
      </ul>
    </section>
  );
}

interface FoundProps {
  finding: Finding;
  parts: readonly Part[];
  onWithdraw: (() => void) | null;
}

function FoundLine({ finding, parts, onWithdraw }: FoundProps) {
  const { look } = words;
  const side = parts.find((part) => part.id === finding.part_id)?.side;
  const back = !standing(finding);
  return (
    <li class={back ? 'found-line back' : 'found-line'}>
      <span class="found-what">
        <span class="found-kind">
          {side ? `${look.rotor[side]}: ` : ''}
          {look.kinds[finding.kind][0]}
        </span>
        <span>
          {finding.kind === 'nothing_found' ? '' : look.judgement[finding.judgement]}
          {finding.note ? ` · ${finding.note}` : ''}
        </span>
        <span class="small soft">
          {back ? `${look.withdrawn}, ${personName(finding.withdrawn_by_person_id)}` : personName(finding.by_person_id)}
          {`, ${moment(back && finding.withdrawn_at ? finding.withdrawn_at : finding.at, new Date())}`}
        </span>
      </span>
      {!back && onWithdraw ? (
        <button
          type="button"
          class="plain"
          aria-label={`${look.withdraw}: ${look.kinds[finding.kind][0]}`}
          onClick={onWithdraw}
        >
          {look.withdraw}
        </button>
      ) : null}
    </li>
  );
}
