import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Finding, FindingKind, Part, Side } from '../api/schema';
import { Caution } from '../controls/caution';
import { Opens } from '../controls/opens';
import { useSaving } from '../controls/saving';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { moment } from '../show/time';
import { jobFile, refreshJob, sealed } from '../state/job';
import { personName } from '../state/shop';
import { words } from '../words';
import { FindingSheet } from './finding_sheet';
import './look.css';

const KINDS = Object.keys(words.look.kinds) as FindingKind[];

const standing = (finding: Finding) => !finding.withdrawn_at;

/** What can be seen and heard, rotor by rotor. */
export function Look() {
  const file = jobFile.value;
  const parts = file?.parts ?? [];
  const [side, setSide] = useState<Side>(parts[0]?.side ?? 'left');
  const [asking, setAsking] = useState<FindingKind | null>(null);
  const [draftId, setDraftId] = useState(newId);
  const saving = useSaving();
  const part = parts.find((one) => one.side === side) ?? parts[0];
  if (!file || !part) return null;
  const { look } = words;
  const ask = (kind: FindingKind) => {
    setDraftId(newId());
    saving.setTrouble(null);
    if (kind === 'nothing_found') void keep(kind, 'noted', '', newId());
    else setAsking(kind);
  };
  const keep = (kind: FindingKind, judgement: Finding['judgement'], note: string, id = draftId) =>
    saving.run(async () => {
      const body = { id, part_id: part.id, kind, judgement, note };
      await call('post', '/jobs/{job_id}/findings', { path: { job_id: file.job.id }, body });
      await refreshJob();
      setAsking(null);
    });
  const withdraw = (finding: Finding) =>
    saving.run(async () => {
      const path = { job_id: file.job.id, finding_id: finding.id };
      await call('post', '/jobs/{job_id}/findings/{finding_id}/withdraw', { path });
      await refreshJob();
    });
  const found = (kind: FindingKind) =>
    file.findings.some((one) => standing(one) && one.part_id === part.id && one.kind === kind);
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
      {parts.length > 1 ? (
        <Choice
          label={look.title}
          value={part.side}
          options={parts.map((one) => ({ value: one.side, label: look.rotor[one.side] }))}
          onChange={setSide}
        />
      ) : (
        <h2>{look.rotor[part.side]}</h2>
      )}
      <p class="soft">{look.lead}</p>
      <fieldset class="kinds" aria-label={look.rotor[part.side]}>
        {KINDS.map((kind) => (
          <button
            key={kind}
            type="button"
            class="kind"
            aria-pressed={found(kind)}
            disabled={sealed.value || saving.busy}
            onClick={() => ask(kind)}
          >
            <span class="kind-name">{look.kinds[kind][0]}</span>
            <span class="small soft">{look.kinds[kind][1]}</span>
          </button>
        ))}
      </fieldset>
      <Opens title={look.ring.title}>
        <p>{look.ring.text}</p>
        <p class="small soft">{look.ring.source}</p>
      </Opens>
      {saving.trouble && !asking ? (
        <p class="trouble" role="alert">
          {saving.trouble.message}
        </p>
      ) : null}
      <section class="found" aria-label={look.on_record}>
        <h2>{look.on_record}</h2>
        {file.findings.length === 0 ? <p class="soft">{look.nothing_yet}</p> : null}
        <ul>
          {file.findings.map((one) => (
            <FoundLine
              key={one.id}
              finding={one}
              parts={parts}
              onWithdraw={sealed.value ? null : () => withdraw(one)}
            />
          ))}
        </ul>
      </section>
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
