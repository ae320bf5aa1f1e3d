import type { Study, StudyAnswer, StudyFigure, StudyFigures } from '../api/schema';
import { Opens } from '../controls/opens';
import { typeset } from '../show/typeset';
import { instrumentOf, person, personName } from '../state/shop';
import { words } from '../words';
import { deviationsOf, digits, finenessOf, inchDigits, spansMark } from './deviations';
import { GroupResult } from './group_result';
import { ByGroup, type Names, PicturesOverParts } from './pictures';
import { ShareScale } from './share_scale';
import { Working } from './working';

interface Props {
  answer: StudyAnswer;
  study: Study;
  partName: (id: string) => string;
}

/** What a study says: the share first, then what it is made of, what to do, the pictures, each person, the working. */
export function Answer({ answer, study, partName }: Props) {
  const said = words.studies;
  const figures = answer.figures ?? null;
  const names: Names = { part: partName, person: personName, place: (id) => study.person_ids.indexOf(id) };
  const own = answer.people.find((one) => one.id === person.value?.id);
  const left_out = answer.left_out.map((one) => personName(one.person_id));
  return (
    <div class="study-answer">
      {left_out.length > 0 ? <p class="small">{said.one.left_out(left_out.join(', '))}</p> : null}
      {answer.missing.length > 0 ? (
        <section>
          <h2>{said.one.no_figures}</h2>
          {answer.missing.map((one) => (
            <p key={one}>{typeset(one)}</p>
          ))}
        </section>
      ) : null}
      {own ? (
        <section class="study-own">
          <h2>{said.person.yours}</h2>
          <GroupResult group={own} partName={partName} />
        </section>
      ) : null}
      {figures ? (
        <>
          <Share figures={figures} />
          <Figures figures={figures} />
          <WhatToDo answer={answer} />
          <section class="study-pictures">
            <h2>{said.pictures.title}</h2>
            <PicturesOverParts deviations={deviationsOf(answer, study)} names={names} first={own?.id ?? null} />
            <h3>{said.pictures.by_person}</h3>
            <ByGroup groups={answer.people} name={personName} placeOf={names.place} />
          </section>
          <section>
            <h2>{said.person.title}</h2>
            {answer.people.map((one) => (
              <Opens key={one.id} title={personName(one.id)}>
                <GroupResult group={one} partName={partName} />
              </Opens>
            ))}
          </section>
          {answer.instruments.length > 0 ? (
            <section>
              <h2>{said.person.instruments}</h2>
              {answer.instruments.map((one) => (
                <Opens key={one.id} title={instrumentOf(one.id)?.name ?? ''} open>
                  <GroupResult group={one} partName={partName} />
                </Opens>
              ))}
            </section>
          ) : null}
          <Opens title={said.working.title}>
            <Working figures={figures} notes={answer.notes} />
          </Opens>
        </>
      ) : null}
    </div>
  );
}

/** The largest number: of the tolerance where there is one, else of the spread. */
function Share({ figures }: { figures: StudyFigures }) {
  const said = words.studies.answer;
  const of_tolerance = figures.percent_tolerance ?? null;
  const share = of_tolerance ?? figures.percent_grr ?? null;
  if (!share) return <p class="study-share-words">{said.unknown}</p>;
  const { interval } = share;
  return (
    <section class="study-share">
      <p>
        <span class="study-percent figures">{digits(share.value)}</span>
        <span class="study-sign"> %</span>
      </p>
      <p class="study-share-words">{of_tolerance ? said.tolerance : said.spread}</p>
      <p class="figures">
        {interval ? said.interval(digits(interval.low95), digits(interval.high95)) : said.no_interval}
      </p>
      <ShareScale share={share} />
      <p>
        {of_tolerance ? said.means[finenessOf(share.value)] : said.means.spread_note}{' '}
        {of_tolerance && spansMark(interval) ? said.means.spans : ''}
      </p>
    </section>
  );
}

function Figures({ figures }: { figures: StudyFigures }) {
  const said = words.studies.answer;
  const rows: [string, string, StudyFigure | null][] = [
    [said.repeatability, said.repeatability_note, figures.repeatability_sd_um ?? null],
    [said.reproducibility, said.reproducibility_note, figures.reproducibility_sd_um ?? null],
    [said.grr, said.grr_note, figures.grr_sd_um ?? null],
  ];
  const ndc = figures.ndc_uncut?.interval;
  return (
    <dl class="study-figures">
      {rows.map(([name, note, figure]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            {figure ? (
              <>
                <span class="study-figure figures">{digits(figure.value)} µm</span>
                <span class="small soft figures">
                  {inchDigits(figure.value)} in ·{' '}
                  {figure.interval
                    ? said.interval_um(digits(figure.interval.low95), digits(figure.interval.high95))
                    : said.no_interval}
                </span>
              </>
            ) : (
              <span class="study-figure soft">{said.unknown}</span>
            )}
          </dd>
          <dd class="small soft">{note}</dd>
        </div>
      ))}
      <div>
        <dt>{said.ndc}</dt>
        <dd>
          <span class="study-figure figures">{figures.ndc ?? said.unknown}</span>
          {ndc ? <span class="small soft figures">{`${digits(ndc.low95)} – ${digits(ndc.high95)}`}</span> : null}
        </dd>
        <dd class="small soft">{said.ndc_note}</dd>
      </div>
    </dl>
  );
}

function WhatToDo({ answer }: { answer: StudyAnswer }) {
  const said = words.studies.answer;
  if (answer.words.length === 0) return null;
  return (
    <section>
      <h2>{said.do}</h2>
      <ul class="study-do">
        {answer.words.map((one) => (
          <li key={`${one.cause}${one.text}`}>
            <span class="study-cause small">{said.cause[one.cause]}</span>
            <span>{typeset(one.text)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
