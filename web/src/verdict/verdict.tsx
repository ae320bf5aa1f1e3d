import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Action, Decision, JobFile } from '../api/schema';
import { Opens } from '../controls/opens';
import { type Saving, useSaving } from '../controls/saving';
import { ActionMark } from '../pictures/action_mark';
import { ProbabilityBar } from '../pictures/probability_bar';
import { go } from '../route/router';
import { Screen } from '../shell/screen';
import { type Step, stepAddress, stepFor } from '../shell/step_path';
import { dialsOf } from '../show/dials';
import { percent } from '../show/length';
import { moment } from '../show/time';
import { assessment, jobFile, refreshAssessment, refreshJob, sealed } from '../state/job';
import { personName, shop } from '../state/shop';
import { words } from '../words';
import {
  actionOf,
  type DrumVerdict,
  type Judged,
  judgedOf,
  leadReason,
  type NextMeasurement,
  type PartVerdict,
  pastDiscard,
  verdictOf,
  wayTo,
} from './answer';
import { Drum, OneSize } from './drum';
import { Overrule } from './overrule';
import { ReasonList } from './reasons';
import { Rotor } from './rotor';
import './verdict.css';
import { typeset } from '../show/typeset';

/** The word, the probability behind it, and the sentence that it rests on; then what a person decides. */
export function Verdict() {
  const file = jobFile.value;
  const assessed = assessment.value;
  if (!file) return null;
  const computed = judgedOf(assessed);
  if (!computed) return <NotYet file={file} />;
  return <Computed file={file} computed={computed} />;
}

function NotYet({ file }: { file: JobFile }) {
  const assessed = assessment.value;
  const step = assessed?.waits_for === 'limits' ? 'limits' : 'before';
  return (
    <Screen
      name="verdict"
      title={words.verdict.not_yet}
      next={
        <a class="button main" href={stepAddress(file.job.number, step)}>
          {step === 'limits' ? words.verdict.go_limits : words.verdict.go_measure}
        </a>
      }
    >
      {assessed === null ? <p class="soft">{words.shell.loading}</p> : <p>{words.verdict.missing}</p>}
      <ul class="missing">
        {assessed?.missing.map((what) => (
          <li key={what}>{what}</li>
        ))}
      </ul>
    </Screen>
  );
}

/** Records a decision, once however often it is sent, and goes where it leads. */
function useDeciding(file: JobFile, onDecided: () => void) {
  const [id, setId] = useState(newId);
  const saving = useSaving();
  const decide = async (action: Action, reason: string) => {
    const went = await saving.run(async () => {
      const body = { id, action, reason };
      await call('post', '/jobs/{job_id}/decisions', { path: { job_id: file.job.id }, body });
      await refreshJob();
      await refreshAssessment();
    });
    if (!went) return;
    setId(newId());
    onDecided();
    go(stepAddress(file.job.number, leadsTo(action)));
  };
  return { saving, decide };
}

function Computed({ file, computed }: { file: JobFile; computed: Judged }) {
  const { verdict } = words;
  const [otherwise, setOtherwise] = useState(false);
  const { saving, decide } = useDeciding(file, () => setOtherwise(false));
  const action = actionOf(computed.action);
  const decided = file.decisions.at(-1) ?? null;
  return (
    <Screen
      name="verdict"
      silentTitle
      title={`${verdict.title}: ${verdict.actions[action]}`}
      next={<Next {...{ action, computed, file, decided, saving, decide }} />}
      aside={
        sealed.value ? null : (
          <button type="button" onClick={() => setOtherwise(true)}>
            {verdict.otherwise}
          </button>
        )
      }
    >
      <div class="word">
        <ActionMark action={action} size={88} />
        <p class="word-itself" aria-hidden="true">
          {verdict.actions[action]}
        </p>
      </div>
      <Grounds computed={computed} />
      {decided ? <DecidedLine decided={decided} /> : null}
      {saving.trouble && !otherwise ? (
        <p class="trouble" role="alert">
          {saving.trouble.message}
        </p>
      ) : null}
      {computed.next_measurement ? <WouldSettle next={computed.next_measurement} /> : null}
      <Parts file={file} computed={computed} />
      <p class="caution small">{verdict.caution}</p>
      {otherwise ? (
        <Overrule
          computed={action}
          scrap={pastDiscard(computed, file.parts)}
          busy={saving.busy}
          trouble={saving.trouble}
          onDecide={decide}
          onClose={() => setOtherwise(false)}
        />
      ) : null}
    </Screen>
  );
}

/** The probability against what the shop asks for, and the sentence that it rests on. */
function Grounds({ computed }: { computed: Judged }) {
  const { verdict } = words;
  const reason = leadReason(computed);
  return (
    <div class="grounds">
      <ProbabilityBar
        name={verdict.probability}
        p={computed.p}
        confidence={shop.value?.settings.confidence ?? 0.95}
        answers={{ within: verdict.meets, 'cannot tell': verdict.misses, outside: verdict.misses }}
      />
      {reason ? (
        <div class="because">
          <p class="because-text">{typeset(reason.text)}</p>
          {reason.source ? (
            <p class="small soft">
              {verdict.source}: {reason.source}
            </p>
          ) : null}
        </div>
      ) : null}
    </div>
  );
}

/** Both rotors or drums side by side, what was assumed, and every reason. */
function Parts({ file, computed }: { file: JobFile; computed: Judged }) {
  const { verdict } = words;
  const lathe = shop.value?.lathes.find((one) => one.id === file.job.lathe_id) ?? null;
  const dials = dialsOf(assessment.value?.bench, lathe);
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const assumed = assessment.value?.missing ?? [];
  return (
    <>
      <div class={`rotors rotors-${file.parts.length}`}>
        {file.parts.map((part) => {
          const found = verdictOf<PartVerdict | DrumVerdict>(computed, part, file.parts);
          if (!found) return null;
          const seen = { part, dials, unit, axle: computed.action };
          return 'thickness' in found ? (
            <Rotor key={part.id} {...seen} found={found} />
          ) : (
            <Drum key={part.id} {...seen} found={found} />
          );
        })}
      </div>
      {'pair' in computed && computed.pair && computed.action === 'cut' ? (
        <OneSize parts={file.parts} pair={computed.pair} unit={unit} />
      ) : null}
      {assumed.length > 0 ? (
        <section aria-label={verdict.assumed}>
          <h2 class="small soft">{verdict.assumed}</h2>
          <ul class="missing">
            {assumed.map((what) => (
              <li key={what}>{what}</li>
            ))}
          </ul>
        </section>
      ) : null}
      {file.parts.length === 1 ? <p class="small soft">{verdict.one_rotor}</p> : null}
      {computed.reasons.length > 1 ? (
        <Opens title={verdict.working_reasons}>
          <ReasonList reasons={computed.reasons} />
        </Opens>
      ) : null}
    </>
  );
}

/** Where a decision leads: to what the job waits for at the lathe, where it is cut. */
function leadsTo(action: Action): Step {
  if (action === 'measure_again') return 'before';
  const step = stepFor(assessment.value?.waits_for ?? 'cut');
  if (action !== 'cut') return step === 'refit' ? 'refit' : 'record';
  return step === 'mount' || step === 'plan' ? step : 'cut';
}

interface NextProps {
  action: Action;
  computed: Judged;
  file: JobFile;
  decided: Decision | null;
  saving: Saving;
  decide: (action: Action, reason: string) => Promise<void>;
}

/** The way on: record what was computed, or go straight to the reading that would settle it. */
function Next({ action, computed, file, decided, saving, decide }: NextProps) {
  const { verdict } = words;
  if (sealed.value) {
    return (
      <a class="button main" href={stepAddress(file.job.number, 'record')}>
        {words.shell.step.record}
      </a>
    );
  }
  if (action === 'measure_again') {
    const way = wayTo(computed.next_measurement, file.parts);
    return (
      <a class="button main" href={`${stepAddress(file.job.number, way.step)}?${new URLSearchParams(way.query)}`}>
        {way.step === 'limits' ? verdict.go_limits : verdict.go_measure}
      </a>
    );
  }
  if (decided && decided.computed_action === action && decided.action !== 'measure_again') {
    const step = leadsTo(decided.action);
    return (
      <a class="button main" href={stepAddress(file.job.number, step)}>
        {words.shell.step[step]}
      </a>
    );
  }
  return (
    <button type="button" class="main" disabled={saving.busy} onClick={() => decide(action, '')}>
      {verdict.accept[action]}
    </button>
  );
}

function DecidedLine({ decided }: { decided: Decision }) {
  const { verdict } = words;
  const name = personName(decided.by_person_id);
  return (
    <div class="doubt">
      <p>
        <strong>{verdict.decided}:</strong>{' '}
        {verdict.decided_line(verdict.actions[decided.action], name, moment(decided.at, new Date()))}
      </p>
      {decided.action === decided.computed_action ? null : (
        <p class="small">
          {verdict.computed_then(verdict.actions_short[decided.computed_action], percent(decided.computed_p))}.{' '}
          {decided.reason}
        </p>
      )}
    </div>
  );
}

/** What reading would settle it, and what it would bring the probability to. */
function WouldSettle({ next }: { next: NextMeasurement }) {
  const { verdict } = words;
  return (
    <section class="settle" aria-label={verdict.next}>
      <h2>{verdict.next}</h2>
      <p class="because-text">{typeset(next.text)}</p>
      {next.p_now !== undefined && next.p_after !== undefined && next.p_after > 0 ? (
        <p class="settle-p">
          <span class="figures">{percent(next.p_now)}</span>
          <svg viewBox="0 0 60 16" width="60" height="16" aria-hidden="true">
            <path d="M0 8H52M45 2L53 8L45 14" fill="none" stroke="currentColor" stroke-width="2" />
          </svg>
          <span class="heard"> {verdict.to} </span>
          <span class="figures settle-after">{percent(next.p_after)}</span>
        </p>
      ) : null}
      {next.method ? <p class="small soft">{next.method}</p> : null}
    </section>
  );
}
