import type { JobFile, Part } from '../api/schema';
import { Opens } from '../controls/opens';
import { StandingMark } from '../pictures/probability_bar';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { type HowShown, lengthOfMm, percent } from '../show/length';
import { onRadius } from '../show/on_radius';
import { isDrum } from '../show/part_kind';
import { typeset } from '../show/typeset';
import { assessment, assessmentOf, jobFile } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { type AfterCheck, type CutAnswer, cutAnswerOf, outcomeOf, together } from './answer';
import { Diagnoses } from './diagnosis';
import { DialCheck } from './dial_check';
import { Removed } from './removed';

const MARK = { pass: 'within', fail: 'outside', cannot_tell: 'cannot tell' } as const;

/** What the cut did: the word for the axle, each limit with its probability, and what came off where. */
export function Check() {
  const file = jobFile.value;
  if (!file) return null;
  const { check } = words;
  const found = file.parts.flatMap((part) => {
    const answer = cutAnswerOf(assessmentOf(part));
    return answer ? [{ part, answer }] : [];
  });
  if (found.length === 0) {
    return wasLeft(file) ? <NothingCut number={file.job.number} /> : <NotYet number={file.job.number} />;
  }
  const missing = file.parts.filter((part) => !found.some((one) => one.part.id === part.id));
  const outcome = together([
    ...found.map((one) => outcomeOf(one.answer.outcome)),
    ...missing.map(() => 'cannot_tell' as const),
  ]);
  const how: HowShown = { unit: shop.value?.settings.default_unit ?? 'mm', resolution_nm: 1000 };
  return (
    <Screen
      name="check"
      title={check.title}
      next={<Onward number={file.job.number} />}
      aside={
        <a class="button" href={stepAddress(file.job.number, 'after')}>
          {check.to_measure}
        </a>
      }
    >
      <div class="outcome">
        <StandingMark standing={MARK[outcome]} />
        <p class="outcome-word">{check.outcome[outcome]}</p>
      </div>
      <p class="soft">{check.outcome_means[outcome]}</p>
      <div class={`rotors rotors-${file.parts.length}`}>
        {found.map(({ part, answer }) => (
          <Checked
            key={part.id}
            part={part}
            answer={answer}
            how={how}
            lathe_id={file.cuts.filter((one) => one.part_id === part.id).at(-1)?.lathe_id ?? null}
          />
        ))}
        {missing.map((part) => (
          <section class="rotor" key={part.id} aria-label={check.rotor[part.side]}>
            <h2>{check.rotor[part.side]}</h2>
            <p class="soft">{progressOf(part)}</p>
          </section>
        ))}
      </div>
      <Diagnoses file={file} />
      <p class="caution small">{check.car}</p>
    </Screen>
  );
}

function progressOf(part: Part): string {
  const progress = assessmentOf(part)?.progress_after;
  const [done, wanted] = isDrum(part)
    ? [progress?.diameter_done, progress?.diameter_wanted]
    : [progress?.thickness_done, progress?.thickness_wanted];
  return words.check.not_yet_lead(done ?? 0, wanted ?? 0);
}

/** Decided to do without a cut, and none was made all the same. */
const wasLeft = ({ cuts, decisions }: JobFile): boolean =>
  cuts.length === 0 && decisions.length > 0 && decisions.at(-1)?.action !== 'cut';

/** Back onto the car where it was read there, else to the record. */
function Onward({ number }: { number: number | undefined }) {
  const step = assessment.value?.waits_for === 'refit' ? 'refit' : 'record';
  return (
    <a class="button main" href={stepAddress(number, step)}>
      {step === 'refit' ? words.refit.title : words.check.to_record}
    </a>
  );
}

function NothingCut({ number }: { number: number | undefined }) {
  const { check } = words;
  return (
    <Screen name="check" title={check.not_cut} next={<Onward number={number} />}>
      <p class="soft">{check.not_cut_lead}</p>
    </Screen>
  );
}

function NotYet({ number }: { number: number | undefined }) {
  const { check } = words;
  return (
    <Screen
      name="check"
      title={check.not_yet}
      next={
        <a class="button main" href={stepAddress(number, 'after')}>
          {check.to_measure}
        </a>
      }
    >
      {assessment.value === null ? (
        <p class="soft">{words.shell.loading}</p>
      ) : (
        jobFile.value?.parts.map((part) => (
          <p key={part.id}>
            {check.rotor[part.side]}: {progressOf(part)}
          </p>
        ))
      )}
    </Screen>
  );
}

interface CheckedProps {
  part: Part;
  answer: CutAnswer;
  how: HowShown;
  lathe_id: string | null;
}

function Checked({ part, answer, how, lathe_id }: CheckedProps) {
  const { check } = words;
  const dials = assessmentOf(part)?.dial_check ?? null;
  /** What is gone: of a drum it is of the diameter. */
  const um = (value: number) => (isDrum(part) ? onRadius(value / 2, how) : lengthOfMm(value / 1000, how));
  const planned = answer.planned_um ?? null;
  return (
    <section class="rotor" aria-label={check.rotor[part.side]}>
      <h2>
        {check.rotor[part.side]} <span class="soft">· {check.outcome[outcomeOf(answer.outcome)]}</span>
      </h2>
      <ul class="checks">
        {answer.checks.map((one) => (
          <CheckLine key={one.code} check={one} how={how} />
        ))}
      </ul>
      <h3>{check.removed}</h3>
      <p class="small soft">{check.removed_lead}</p>
      <Removed answer={answer} how={how} />
      <dl class="sums">
        <div>
          <dt>{check.removed_mean}</dt>
          <dd class="figures">{um(answer.removed_mean_um)}</dd>
        </div>
        <div>
          <dt>{check.removed_least}</dt>
          <dd class="figures">{um(answer.removed_min_um)}</dd>
        </div>
        <div>
          <dt>{check.removed_most}</dt>
          <dd class="figures">{um(answer.removed_max_um)}</dd>
        </div>
        {planned === null || dials ? null : (
          <>
            <div>
              <dt>{check.planned}</dt>
              <dd class="figures">{um(planned)}</dd>
            </div>
            <div>
              <dt>{check.difference}</dt>
              <dd class="figures">
                {lengthOfMm((answer.difference_um ?? answer.removed_mean_um - planned) / 1000, { ...how, sign: true })}
              </dd>
            </div>
          </>
        )}
      </dl>
      {dials ? null : (
        <p class="small soft">
          {planned === null ? check.cannot_compare : answer.agrees_with_plan === false ? check.differs : check.agrees}
        </p>
      )}
      {dials ? <DialCheck answer={dials} how={how} lathe_id={lathe_id} /> : null}
      {answer.advice.length > 0 ? (
        <Opens title={check.advice} open>
          <ul>
            {answer.advice.map((one) => (
              <li key={one.code}>{typeset(one.text)}</li>
            ))}
          </ul>
        </Opens>
      ) : null}
    </section>
  );
}

function CheckLine({ check: one, how }: { check: AfterCheck; how: HowShown }) {
  const { check } = words;
  const outcome = outcomeOf(one.outcome);
  const show = (value: number) => (one.code === 'finish' ? `${value.toFixed(2)} µm` : lengthOfMm(value, how));
  const name = (check.checks as Record<string, string>)[one.code] ?? one.code;
  return (
    <li class="check-line">
      <span class="check-mark">
        <StandingMark standing={MARK[outcome]} />
      </span>
      <span class="check-name">
        {name}
        <span class="small soft"> {check.outcome[outcome]}</span>
      </span>
      <span class="check-value figures">{show(one.value)}</span>
      <span class="small soft check-limit">
        {check.limit} <span class="figures">{show(one.limit)}</span>, {percent(one.p)} {check.probability}
        {one.source ? ` · ${one.source}` : ''}
      </span>
      {outcome === 'pass' ? null : <span class="check-text">{typeset(one.text)}</span>}
    </li>
  );
}
