import type { StudyFigures } from '../api/schema';
import { typeset } from '../show/typeset';
import { words } from '../words';
import { digits, pText } from './deviations';
import { Sideways } from './sideways';

/** The table behind the figures, the parts of the spread, the formulas and where they stand. */
export function Working({ figures, notes }: { figures: StudyFigures; notes: readonly string[] }) {
  const said = words.studies.working;
  const parts = [
    [said.part_sd, figures.part_sd_um],
    [said.person_sd, figures.person_sd_um],
    [said.interaction_sd, figures.interaction_sd_um],
    [words.studies.answer.repeatability, figures.repeatability_sd_um],
    [said.total_sd, figures.total_sd_um],
  ] as const;
  return (
    <div class="study-working">
      <h3>{said.table}</h3>
      <Sideways label={said.table}>
        <table>
          <thead>
            <tr>
              <th scope="col">{said.source}</th>
              {[said.ss, said.df, said.ms, said.f, said.p].map((head) => (
                <th key={head} scope="col" class="digits">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {figures.table.map((line) => (
              <tr key={line.source}>
                <th scope="row">{said.sources[line.source]}</th>
                <td class="digits">{line.ss_um2.toFixed(2)}</td>
                <td class="digits">{line.df}</td>
                <td class="digits">{line.ms_um2.toFixed(3)}</td>
                <td class="digits">{line.f === null ? '' : line.f.toFixed(2)}</td>
                <td class="digits">{line.p === null ? '' : pText(line.p)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Sideways>
      <p class="small">{figures.is_pooled ? said.pooled : said.unpooled}</p>
      <h3>{said.components}</h3>
      <dl class="sums">
        {parts.map(([name, figure]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd class="figures">{figure ? `${digits(figure.value)} µm` : words.studies.answer.unknown}</dd>
            {figure?.interval ? (
              <dd class="small soft figures">
                {words.studies.answer.interval_um(digits(figure.interval.low95), digits(figure.interval.high95))}
              </dd>
            ) : null}
          </div>
        ))}
      </dl>
      <ul class="study-formulas">
        {said.formulas.map((one) => (
          <li key={one} class="small">
            {one}
          </li>
        ))}
      </ul>
      <p class="small soft">{said.source_text}</p>
      {notes.map((one) => (
        <p key={one} class="small">
          {typeset(one)}
        </p>
      ))}
    </div>
  );
}
