import { call } from '../api/client';
import type { Competence, Evidence, Person } from '../api/schema';
import { membersOf } from '../class/members';
import { OnlyLeads } from '../class/only_leads';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { useStanding } from '../state/answer';
import { EVIDENCE } from '../state/kinds';
import { leads } from '../state/role';
import { shop } from '../state/shop';
import { words } from '../words';
import './competences.css';
import { LevelMark, levelWord } from './level_mark';
import { LEVELS, reached, shownCompetences, signedCount } from './levels';

const read = async () => {
  const [classes, competences, evidence] = await Promise.all([
    call('get', '/classes'),
    call('get', '/competences'),
    call('get', '/evidence', {}),
  ]);
  return { classes, competences, evidence };
};

/** One class: who has shown what. */
export const CompetenceGrid = ({ class: class_id = '' }: Record<string, string>) =>
  leads.value ? <OfClass class_id={class_id} /> : <OnlyLeads />;

function OfClass({ class_id }: { class_id: string }) {
  const { competences: said } = words;
  const { answer, trouble } = useStanding(read, EVIDENCE);
  const view = answer?.classes.find((one) => one.class.id === class_id);
  const people = view ? membersOf(view, shop.value?.people ?? []) : [];
  const ids = new Set(people.map((one) => one.id));
  const evidence = (answer?.evidence ?? []).filter((one) => ids.has(one.person_id));
  const shown = shownCompetences(answer?.competences ?? [], evidence);
  const sheet = `/api/v1/classes/${class_id}/evidence`;
  return (
    <Screen
      name="competences"
      title={view ? said.of_class(view.class.name) : said.title}
      next={
        <a class="button main later" href={`/class?class=${class_id}`}>
          {words.classes.to_class}
        </a>
      }
      aside={
        view ? (
          <>
            <a class="button" href={`${sheet}.pdf`} target="_blank" rel="noreferrer">
              {said.pdf}
            </a>
            <a class="button" href={`${sheet}.xlsx`} download>
              {said.xlsx}
            </a>
          </>
        ) : undefined
      }
    >
      <TroubleLine text={trouble?.message} />
      {answer ? null : <p class="soft">{trouble ? '' : said.waiting}</p>}
      {answer && !view ? <p>{said.no_class}</p> : null}
      {view && people.length === 0 ? <p class="soft">{said.nobody}</p> : null}
      {view && shown.length === 0 ? (
        <p>
          {said.none} <a href="/competences">{said.list_title}</a>
        </p>
      ) : null}
      {people.length > 0 && shown.length > 0 ? (
        <>
          <Legend />
          <Grid {...{ people, shown, evidence }} />
        </>
      ) : null}
    </Screen>
  );
}

function Legend() {
  return (
    <ul class="level-legend small" aria-label={words.competences.legend}>
      {LEVELS.map((level) => (
        <li key={level}>
          <LevelMark level={level} /> <strong>{levelWord(level)}</strong>{' '}
          <span class="soft">{words.competences.level_long[level]}</span>
        </li>
      ))}
    </ul>
  );
}

interface GridProps {
  people: readonly Person[];
  shown: readonly Competence[];
  evidence: readonly Evidence[];
}

function Grid({ people, shown, evidence }: GridProps) {
  const { competences: said } = words;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls is reached by keys
    <section class="grid-box" tabIndex={0} aria-label={said.title}>
      <table class="level-grid">
        <thead>
          <tr>
            <th scope="col">{said.who}</th>
            {shown.map((one) => (
              <th key={one.id} scope="col">
                {one.name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {people.map((person) => (
            <tr key={person.id}>
              <th scope="row">
                <a href={`/class/${person.id}/evidence`}>{person.name}</a>
                <span class="small soft">{said.count(signedCount(shown, evidence, person.id), shown.length)}</span>
              </th>
              {shown.map((one) => {
                const level = reached(evidence, { person_id: person.id, competence_id: one.id })?.level ?? null;
                return (
                  <td key={one.id}>
                    <a
                      class="level-cell"
                      href={`/class/${person.id}/evidence?of=${one.id}`}
                      aria-label={said.cell(person.name, one.name, levelWord(level))}
                    >
                      <LevelMark level={level} />
                      <span class={level ? 'small' : 'small soft'}>{levelWord(level)}</span>
                    </a>
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
