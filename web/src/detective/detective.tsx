import { call } from '../api/client';
import type { JobFile, PulsationAdvice } from '../api/schema';
import { TroubleLine } from '../controls/trouble_line';
import { Orders } from '../pictures/orders';
import { Screen } from '../shell/screen';
import { stepAddress, stepFor } from '../shell/step_path';
import { percent } from '../show/length';
import { typeset } from '../show/typeset';
import { useAnswer } from '../state/answer';
import { assessment, jobFile, sealed } from '../state/job';
import { words } from '../words';
import { feltPoint, litOrder, placeFor, standingOf } from './case';
import { Corners } from './corners';
import './detective.css';
import { Fits } from './fits';
import { Recording } from './recording';
import { useTaking } from './take_over';
import { Tapper } from './tapper';

/** From what the driver feels to the rhythm of the wheel and the corner it comes from, and what to measure next. */
export function Detective() {
  const file = jobFile.value;
  return file ? <Case key={file.job.id} file={file} /> : null;
}

function Case({ file }: { file: JobFile }) {
  const { detective } = words;
  const { number, id } = file.job;
  const { answer, trouble } = useAnswer(
    () => call('get', '/jobs/{job_id}/pulsation', { path: { job_id: id } }),
    [file],
  );
  const taking = useTaking(file);
  const mine = sealed.value ? null : taking;
  const waits_for = assessment.value?.waits_for ?? 'limits';
  return (
    <Screen
      name="detective"
      title={detective.title}
      next={
        <a class="button main" href={stepAddress(number, stepFor(waits_for))}>
          {detective.to_job}
        </a>
      }
      aside={
        <a class="button" href={stepAddress(number, 'arrival')}>
          {detective.back}
        </a>
      }
    >
      <TroubleLine text={trouble?.message} />
      {answer ? <Answer advice={answer} file={file} /> : <p class="soft">{trouble ? '' : detective.waiting}</p>}
      <TroubleLine text={taking.saving.trouble?.message} />
      <p class="taken" role="status">
        {taking.taken === null ? '' : detective.taken(String(taking.taken))}
      </p>
      <div class="tools">
        <Tapper taking={mine} />
        <Recording job={file.job} taking={mine} />
      </div>
      {taking.settling}
    </Screen>
  );
}

function Answer({ advice, file }: { advice: PulsationAdvice; file: JobFile }) {
  const { detective } = words;
  const standing = standingOf(advice);
  const [best] = advice.orders;
  const lit = litOrder(advice);
  const felt = feltPoint(advice);
  const { wheel } = advice;
  const word = lit === null ? detective.none : words.pictures.perTurn.times(lit);
  const why = {
    unknown: detective.unknown_why,
    sure: lit === null ? '' : detective.sure(lit),
    unsure: detective.unsure,
    none: detective.none_why,
  }[standing];
  return (
    <>
      <section class="case" aria-label={detective.fits}>
        <p class="case-word">{standing === 'unknown' ? detective.unknown : word}</p>
        {best ? <p class="case-p figures">{percent(best.probability)}</p> : null}
        <p class="case-why">{why}</p>
      </section>
      <Missing fields={advice.missing} number={file.job.number} />
      <div class="case-grounds">
        {advice.table.length > 0 ? (
          <section class="case-picture" aria-label={detective.picture}>
            <Orders name={detective.picture} table={advice.table} felt={felt} lit={lit} />
            <p class="small soft">
              {wheel ? detective.picture_note(wheel.low_m.toFixed(2), wheel.high_m.toFixed(2), wheel.tyre) : ''}{' '}
              {advice.felt_speed_km_per_h !== null && felt.speed_km_per_h !== advice.felt_speed_km_per_h
                ? detective.felt_note(speed(advice.felt_speed_km_per_h), speed(felt.speed_km_per_h ?? 0))
                : ''}
            </p>
          </section>
        ) : null}
        <div class="case-lists">
          <Fits orders={advice.orders} />
          <Corners advice={advice} file={file} />
        </div>
      </div>
      {advice.next.length > 0 ? (
        <section class="case-next" aria-label={detective.next}>
          <h2>{detective.next}</h2>
          <ol>
            {advice.next.map((one) => (
              <li key={one.code + one.text}>{typeset(one.text)}</li>
            ))}
          </ol>
        </section>
      ) : null}
      {advice.advice.map((one) => (
        <p key={one.code + one.text} class="small soft">
          {typeset(one.text)}
        </p>
      ))}
      {wheel ? (
        <p class="small soft">
          {words.shell.source}: {wheel.source}
        </p>
      ) : null}
    </>
  );
}

const speed = (km_per_h: number) => `${Math.round(km_per_h)} km/h`;

/** What is still needed, each with the way to where it is told. */
function Missing({ fields, number }: { fields: readonly string[]; number: number | undefined }) {
  const { detective } = words;
  if (fields.length === 0) return null;
  const places = fields.map((field) => ({ field, place: placeFor(field, number) }));
  const ways = [...new Map(places.map(({ place }) => [place.to, place])).values()];
  return (
    <section class="case-missing" aria-label={detective.missing_title}>
      <h2>{detective.missing_title}</h2>
      <ul>
        {fields.map((field) => (
          <li key={field}>{detective.missing[field] ?? field}</li>
        ))}
      </ul>
      <p class="row">
        {ways.map(({ to, at }) => (
          <a key={to} class="button" href={to}>
            {detective.give[at]}
          </a>
        ))}
      </p>
    </section>
  );
}
