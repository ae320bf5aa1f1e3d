import { useEffect, useState } from 'preact/hooks';
import { call } from '../api/client';
import type { components } from '../api/types';
import { useSaving } from '../controls/saving';
import { Figure, useWidth } from '../pictures/figure';
import { type Dials, typedDials } from '../show/dials';
import { percent } from '../show/length';
import { calendarDay } from '../show/time';
import { shop } from '../state/shop';
import { words } from '../words';
import { pointsOf, rangeOf, type Study, type StudyPoint } from './study';
import './check.css';
import { typeset } from '../show/typeset';

type Mark = components['schemas']['CalcDialstudyMark'];

type LatheStudyAnswer = components['schemas']['LatheStudy'];

/** What a mark of each dial of one lathe really is, from its finished jobs. */
export function LatheStudy({ lathe_id }: { lathe_id: string }) {
  const [answer, setAnswer] = useState<LatheStudyAnswer | null>(null);
  const { trouble, run } = useSaving();
  useEffect(() => {
    void run(async () => {
      setAnswer(await call('get', '/lathes/{lathe_id}/study', { path: { lathe_id } }));
    });
  }, [lathe_id]);
  if (trouble) {
    return (
      <p class="trouble" role="alert">
        {trouble.message}
      </p>
    );
  }
  const lathe = shop.value?.lathes.find((one) => one.id === lathe_id);
  return answer ? (
    <StudyShown answer={answer} typed={typedDials(lathe)} />
  ) : (
    <p class="soft">{words.dials.study.waiting}</p>
  );
}

interface ShownProps {
  answer: LatheStudyAnswer;
  typed: Dials;
}

function StudyShown({ answer, typed }: ShownProps) {
  const { study, jobs, mount } = answer;
  const said = words.dials.study;
  const points = pointsOf(jobs);
  const odd = study.odd_job ? jobs[study.odd_job.job] : undefined;
  return (
    <section class="study" aria-label={said.title}>
      {study.needs > 0 ? (
        <>
          <p class="study-needs">{said.needs(study.needs)}</p>
          <p class="soft">{said.so_far(study.jobs)}</p>
        </>
      ) : (
        <>
          <p class="soft">{said.from(study.jobs)}</p>
          <div class="study-marks">
            {(['outboard', 'inboard', 'mean'] as const).map((face) => {
              const mark = study[face];
              return mark ? <MarkOf key={face} name={said.faces[face]} mark={mark} /> : null;
            })}
          </div>
          {study.mean && !study.separable && typed.outboard_um !== typed.inboard_um ? (
            <p class="figures">{eachOf(study.mean, typed)}</p>
          ) : null}
          <dl class="sums">
            <div>
              <dt>{said.drift}</dt>
              <dd>{study.drift?.differs_from_zero ? driftOf(study.drift) : said.drift_none}</dd>
            </div>
            {study.spread ? (
              <div>
                <dt>{said.spread}</dt>
                <dd class="figures">{said.spread_of(study.spread.dial_sd_um.toFixed(1))}</dd>
              </div>
            ) : null}
          </dl>
        </>
      )}
      {points.length > 0 ? <StudyChart points={points} mean={study.mean ?? null} /> : null}
      {study.odd_job && odd ? (
        <p class="doubt">{said.odd(said.job(odd.job_number), percent(study.odd_job.p))}</p>
      ) : null}
      {mount ? <p class="figures">{said.mount(mount.rms_um.toFixed(0), mount.jobs)}</p> : null}
      {study.notes.map((one) => (
        <p key={one} class="small">
          {typeset(one)}
        </p>
      ))}
      <p class="small soft">{said.source}</p>
    </section>
  );
}

/** Both dials by their mean, where the jobs cannot tell them apart. */
function eachOf({ um_per_mark, nominal_um }: Mark, { outboard_um, inboard_um }: Dials): string {
  const factor = um_per_mark / nominal_um;
  return words.dials.study.each((outboard_um * factor).toFixed(2), (inboard_um * factor).toFixed(2));
}

const signed = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(2)}`;
const driftOf = (drift: NonNullable<Study['drift']>) => words.dials.study.drift_of(signed(drift.um_per_100_days));

function MarkOf({ name, mark }: { name: string; mark: Mark }) {
  const said = words.dials.study;
  return (
    <div class="study-mark">
      <span class="soft">{name}</span>
      <span>
        <span class="difference-figure figures">{mark.um_per_mark.toFixed(2)}</span> {said.um}
      </span>
      <span class="figures">{said.interval(mark.low95_um.toFixed(2), mark.high95_um.toFixed(2))}</span>
      <span class="small soft figures">
        {said.nominal(mark.nominal_um.toFixed(2))}, {said.verdict[mark.verdict]}
      </span>
    </div>
  );
}

const HEIGHT = 240;
const LEFT = 56;
const BOTTOM = 34;
const TOP = 12;

/** Every job's own figure with twice its uncertainty, over time. */
function StudyChart({ points, mean }: { points: readonly StudyPoint[]; mean: Mark | null }) {
  const said = words.dials.study;
  const [frame, width] = useWidth(520);
  const range = rangeOf([
    ...points.flatMap((one) => [one.per_mark_um - 2 * one.u_um, one.per_mark_um + 2 * one.u_um]),
    ...(mean ? [mean.low95_um, mean.high95_um, mean.nominal_um] : []),
  ]);
  const first = points[0]?.at_ms ?? 0;
  const span = Math.max(1, (points.at(-1)?.at_ms ?? 0) - first);
  const x = (at: number) => LEFT + 14 + ((at - first) / span) * (width - LEFT - 40);
  const y = (um: number) => TOP + ((range.high - um) / (range.high - range.low)) * (HEIGHT - TOP - BOTTOM);
  const day = (one: StudyPoint) => (one.at_ms > 1e9 ? calendarDay(new Date(one.at_ms).toISOString()) : '');
  const rows = points.map((one) => [
    said.job(one.number),
    day(one),
    String(one.marks),
    `${one.per_mark_um.toFixed(2)} ± ${(2 * one.u_um).toFixed(2)} µm`,
  ]);
  const last = points.at(-1);
  return (
    <Figure
      name={said.chart}
      kind="study"
      says={rows.map((row) => row.join(', ')).join('. ')}
      table={{ head: [said.job_column, said.day, said.marks, said.per_mark], rows }}
    >
      <div ref={frame}>
        <svg class="study-chart" width={width} height={HEIGHT} aria-hidden="true">
          {mean ? (
            <>
              <rect
                class="study-band"
                x={LEFT}
                width={Math.max(0, width - LEFT)}
                y={y(mean.high95_um)}
                height={Math.max(1, y(mean.low95_um) - y(mean.high95_um))}
              />
              <line class="study-nominal" x1={LEFT} x2={width} y1={y(mean.nominal_um)} y2={y(mean.nominal_um)} />
              <text class="trace-word" x={LEFT - 6} y={y(mean.nominal_um) + 4} text-anchor="end">
                {mean.nominal_um.toFixed(1)}
              </text>
            </>
          ) : null}
          {[range.low, range.high].map((um) => (
            <text key={um} class="trace-word" x={LEFT - 6} y={y(um) + (um === range.low ? 0 : 10)} text-anchor="end">
              {um.toFixed(1)}
            </text>
          ))}
          {points.map((one, i) => (
            <g key={`${one.at_ms}/${i}`} class="study-point">
              <line
                x1={x(one.at_ms)}
                x2={x(one.at_ms)}
                y1={y(one.per_mark_um - 2 * one.u_um)}
                y2={y(one.per_mark_um + 2 * one.u_um)}
              />
              <circle cx={x(one.at_ms)} cy={y(one.per_mark_um)} r="5" />
            </g>
          ))}
          <text class="trace-word" x={LEFT} y={HEIGHT - 8}>
            {points[0] ? day(points[0]) : ''}
          </text>
          <text class="trace-word" x={width} y={HEIGHT - 8} text-anchor="end">
            {last && points.length > 1 ? day(last) : ''}
          </text>
        </svg>
      </div>
      <p class="small soft">
        {said.chart_lead} {mean ? said.chart_fit : ''}
      </p>
    </Figure>
  );
}
