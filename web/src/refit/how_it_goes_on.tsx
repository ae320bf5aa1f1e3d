import type { ComponentChildren } from 'preact';
import type { JobFile, Part, RefitAdvice, RefitFitting } from '../api/schema';
import { CountStuds } from '../car/studs';
import { countedAlong } from '../car/to_do_first';
import { Field } from '../controls/field';
import type { Trouble } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { tick } from '../guide/record';
import { HubPicture } from '../pictures/hub';
import { ProbabilityBar } from '../pictures/probability_bar';
import type { Turning } from '../pictures/ring_geometry';
import { ask } from '../route/router';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { digitsOfMm, type HowShown, lengthOfMm } from '../show/length';
import { isDrum } from '../show/part_kind';
import { typeset } from '../show/typeset';
import { planOf, sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import type { Choosing } from './choice';
import { Positions } from './positions';
import { shortestTurn } from './turn';
import { Whose } from './whose';

interface Props {
  file: JobFile;
  part: Part;
  advice: RefitAdvice | null;
  trouble: Trouble | null;
  choosing: Choosing;
  which: ComponentChildren;
  begun: boolean;
  /** It is ticked to be on: another position is chosen once it is off again. */
  on: boolean;
  /** Its nuts are at torque and how it went on is written down. */
  settled: boolean;
}

export const turningOf = (part: Part): Turning =>
  (planOf(part, 'on_car') ?? planOf(part, 'before'))?.turning ?? 'clockwise';

/** Micrometres, or ten-thousandths of an inch. */
export const howRunout = (): HowShown => {
  const unit = shop.value?.settings.default_unit ?? 'mm';
  return { unit, resolution_nm: unit === 'mm' ? 1000 : 2540 };
};

/** What the numbers say of how it goes on: the position drawn, the runout foreseen, whose it is, and what would tell more. */
export function HowItGoesOn({ file, part, advice, trouble, choosing, which, begun, on, settled }: Props) {
  const { refit } = words;
  const studs = part.studs ?? null;
  const drum = isDrum(part);
  const turning = turningOf(part);
  const how = howRunout();
  if (!advice) return <Waiting trouble={trouble} which={which} />;
  const turn = shortestTurn(choosing.chosen.position, studs ?? 1, turning);
  const asked = !choosing.isBest && !settled;
  return (
    <Screen
      name="refit"
      title={studs === null ? refit.studs_first : refit.turn(turn.by, turn.sense)}
      next={<Begin {...{ file, part, begun }} blocked={asked && choosing.reasonMissing} />}
      aside={drum ? null : <ToCar file={file} part={part} quiet={advice.evidence === 'positions'} />}
    >
      {which}
      <div class="refit">
        {studs === null ? null : <Drawn {...{ choosing, studs, turning }} />}
        <section class="refit-says">
          <Foreseen fitting={choosing.fitting} {...{ file, part, advice, how }} />
          {drum && !settled && !sealed.value ? <CountStuds file={file} value={studs} /> : null}
          {asked ? <Reason choosing={choosing} /> : null}
          <Missing advice={advice} />
          <Told advice={advice} />
        </section>
      </div>
      {studs === null ? null : <Positions {...{ advice, choosing, studs, turning, how }} locked={sealed.value || on} />}
      {on && !sealed.value ? <TakeOff part={part} /> : null}
      {studs === null ? null : (
        <Whose
          {...{ advice, studs, turning, how }}
          turned={choosing.chosen.position}
          plate={choosing.chosen.plate_id !== null}
        />
      )}
      <p>
        <a class="button" href={stepAddress(file.job.number, 'road')}>
          {words.road.open}
        </a>
      </p>
    </Screen>
  );
}

/** While the shop works out how it goes on, or why it cannot. */
export function Waiting({ trouble, which }: Pick<Props, 'trouble' | 'which'>) {
  const { refit } = words;
  return (
    <Screen name="refit" title={refit.title}>
      {which}
      <TroubleLine text={trouble?.message} />
      {trouble ? null : <p class="soft">{refit.loading}</p>}
    </Screen>
  );
}

function TakeOff({ part }: { part: Part }) {
  const { refit } = words;
  return (
    <p>
      {refit.is_on}{' '}
      <button type="button" onClick={() => takeOff(part)}>
        {refit.check.off}
      </button>
    </p>
  );
}

/** From here on it is to be put on anew, its nuts and its reading with it. */
export const takeOff = (part: Part) =>
  tick({ part_id: part.id, phase: 'refit', step: 'part_on', event: 'undone', detail: 'taken off again' });

function Begin({ file, part, begun, blocked }: { file: JobFile; part: Part; begun: boolean; blocked: boolean }) {
  const { refit } = words;
  if (sealed.value) {
    return (
      <a class="button main" href={stepAddress(file.job.number, 'record')}>
        {refit.to_record}
      </a>
    );
  }
  if (part.studs == null) {
    return isDrum(part) ? (
      <button type="button" class="main" disabled>
        {refit.studs_first}
      </button>
    ) : (
      <a class="button main" href={stepAddress(file.job.number, 'car')}>
        {refit.studs_first}
      </a>
    );
  }
  return (
    <button type="button" class="main" disabled={blocked} onClick={() => ask({ view: 'steps' })}>
      {blocked ? refit.reason_needed : begun ? refit.go_on : refit.start}
    </button>
  );
}

function ToCar({ file, part, quiet }: { file: JobFile; part: Part; quiet: boolean }) {
  if (sealed.value) return null;
  return (
    <a class={quiet ? 'button plain' : 'button'} href={`${stepAddress(file.job.number, 'car')}?part=${part.side}`}>
      {words.refit.to_car}
    </a>
  );
}

interface DrawnProps {
  choosing: Choosing;
  studs: number;
  turning: Turning;
}

/** The rotor on its hub as it is to go on. */
export function Drawn({ choosing, studs, turning }: DrawnProps) {
  const { refit } = words;
  const { position, plate_position } = choosing.chosen;
  const turn = shortestTurn(position, studs, turning);
  return (
    <HubPicture
      name={refit.picture}
      says={refit.says(refit.turn(turn.by, turn.sense))}
      studs={studs}
      turning={turning}
      turned={position}
      arrow={turn}
      plate={plate_position}
      numbers={countedAlong(turn, studs, turning)}
    />
  );
}

interface ForeseenProps {
  file: JobFile;
  part: Part;
  fitting: RefitFitting | null;
  advice: RefitAdvice;
  how: HowShown;
}

/** Where the thick side of a plate lies. */
export function plateLine(part: Part, { plate_name, plate_position }: RefitFitting): string {
  const { by, sense } = shortestTurn(plate_position ?? 0, part.studs ?? 1, turningOf(part));
  return words.refit.plate_lines(plate_name ?? '', by, sense);
}

function Foreseen({ file, part, fitting, advice, how }: ForeseenProps) {
  const { refit } = words;
  if (!fitting) {
    return (
      <div class="refit-foreseen">
        <p class="refit-nothing">{refit.nothing}</p>
        <p>{refit.nothing_do}</p>
      </div>
    );
  }
  const { limit } = advice;
  return (
    <div class="refit-foreseen">
      <p class="refit-runout">
        <span class="refit-digits digits">{digitsOfMm(fitting.runout_um / 1000, how)}</span>
        <span class="reading-unit">{how.unit}</span>
      </p>
      <p>
        {refit.foreseen},{' '}
        {refit.range(digitsOfMm(fitting.low95_um / 1000, how), lengthOfMm(fitting.high95_um / 1000, how))}
      </p>
      {limit ? (
        <p class="soft">{refit.limit(lengthOfMm(limit.value_mm, how), limit.source ?? '')}</p>
      ) : (
        <p>
          {refit.no_limit} <a href={stepAddress(file.job.number, 'limits')}>{refit.to_limits}</a>
        </p>
      )}
      {fitting.p_within == null ? null : (
        <ProbabilityBar name={refit.within} p={fitting.p_within} confidence={shop.value?.settings.confidence ?? 0.95} />
      )}
      {fitting.plate_name ? <p class="refit-plate">{plateLine(part, fitting)}</p> : null}
    </div>
  );
}

const MOST_REASON = 1000;

function Reason({ choosing }: { choosing: Choosing }) {
  const { refit } = words;
  return (
    <Field
      label={refit.reason}
      note={refit.reason_note}
      value={choosing.chosen.reason}
      focused
      lines={2}
      maxLength={MOST_REASON}
      onInput={(reason) => choosing.change({ reason })}
    />
  );
}

function Missing({ advice }: { advice: RefitAdvice }) {
  const { refit } = words;
  const named = advice.missing.map((field) => refit.missing_field[field] ?? field);
  if (named.length === 0) return null;
  return (
    <p>
      {refit.missing}: {named.join(', ')}.
    </p>
  );
}

/** On what it rests, what it cannot tell, and which reading would tell more. */
function Told({ advice }: { advice: RefitAdvice }) {
  const { refit } = words;
  return (
    <>
      {advice.evidence === 'nothing' ? null : (
        <section aria-label={refit.told}>
          <h2>{refit.told}</h2>
          <p>{typeset(advice.evidence_text)}</p>
        </section>
      )}
      <Sentences all={advice.advice} />
      {advice.next.length > 0 ? (
        <section aria-label={refit.next_reading}>
          <h2>{refit.next_reading}</h2>
          <Sentences all={advice.next} />
        </section>
      ) : null}
    </>
  );
}

function Sentences({ all }: { all: readonly { code: string; text: string }[] }) {
  if (all.length === 0) return null;
  return (
    <ul class="sentences">
      {all.map((one) => (
        <li key={`${one.code}${one.text}`}>{typeset(one.text)}</li>
      ))}
    </ul>
  );
}
