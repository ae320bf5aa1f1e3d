import type { Week, WeekHelp, WeekPerson } from '../api/schema';
import { people, personName } from '../state/shop';
import { words } from '../words';
import { Bars } from './bars';
import { JobLinks } from './behind';
import { helpCounts, inNeed } from './figures';
import { WeekPart } from './part';
import type { Weeks } from './time';

const studentsOf = (week: Week) => {
  const ids = new Set(people.value.filter((one) => one.role === 'student').map((one) => one.id));
  return week.people.filter((one) => ids.has(one.person_id));
};

/** The record that says so. */
function Way({ help, person_id }: { help: WeekHelp; person_id: string }) {
  const { help: said } = words.week;
  switch (help.what) {
    case 'measuring':
      return help.study_id ? <a href={`/studies/${help.study_id}`}>{said.to_study}</a> : null;
    case 'safety':
    case 'permit':
      return <a href={`/class/${person_id}`}>{said.to_permit}</a>;
    case 'competence':
      return <a href={`/class/${person_id}/evidence`}>{said.to_evidence}</a>;
    default:
      return <JobLinks numbers={help.job_numbers} />;
  }
}

function OnePerson({ one }: { one: WeekPerson }) {
  const { help: said } = words.week;
  return (
    <li>
      <a class="week-who" href={`/class/${one.person_id}`}>
        {personName(one.person_id)}
      </a>
      <ul>
        {one.help.map((help) => (
          <li key={help.what + help.text}>
            <span class="week-what">{said.what[help.what]}</span>
            <span>{help.text}</span>
            <span class="week-way">
              <Way help={help} person_id={one.person_id} />
            </span>
          </li>
        ))}
      </ul>
    </li>
  );
}

export function HelpPart({ week, last }: Weeks) {
  const { help: said, last_week } = words.week;
  const needy = inNeed(week.people);
  if (needy.length === 0) return <WeekPart title={said.title} says={said.nobody} basis={said.basis} />;
  const before = new Map(helpCounts(last.people).map((one) => [one.what, one.people]));
  return (
    <WeekPart
      title={said.title}
      figure={String(needy.length)}
      says={said.largest(studentsOf(week).length)}
      before={last_week(said.count(inNeed(last.people).length))}
      basis={said.basis}
    >
      <Bars
        name={said.title}
        kind="week-help"
        thing={said.thing}
        rows={helpCounts(week.people).map((one) => ({
          name: said.what[one.what],
          now: one.people,
          now_text: said.count(one.people),
          before: before.get(one.what) ?? 0,
          before_text: said.count(before.get(one.what) ?? 0),
        }))}
      />
      <ul class="week-people">
        {needy.map((one) => (
          <OnePerson key={one.person_id} one={one} />
        ))}
      </ul>
    </WeekPart>
  );
}
