import { call } from '../api/client';
import type { RosterReport } from '../api/schema';
import { useBringing } from '../bring/bringing';
import { TableForm, Told } from '../bring/table_form';
import { TakeButton } from '../bring/take_button';
import { Screen } from '../shell/screen';
import { loadShop } from '../state/shop';
import { words } from '../words';
import './class.css';

/** A class list: looked at first, with what becomes of each line, and taken on a second tap. */
export function Roster({ class: class_id = '' }: Record<string, string>) {
  const { roster, to_class } = words.classes;
  const bringing = useBringing<RosterReport>({
    draft: `roster.${class_id}`,
    post: ({ text, dry_run }) =>
      call('post', '/classes/{class_id}/roster/import', { path: { class_id }, query: { dry_run }, body: text }),
    isTaken: (report) => report.stored,
    afterwards: loadShop,
  });
  const { looked, done } = bringing;
  const takes = looked && looked.refused === 0 ? looked.added + looked.joins : 0;
  const back = `/class?class=${class_id}`;
  return (
    <Screen
      name="class"
      title={roster.title}
      next={
        done?.stored ? (
          <a class="button main" href={back}>
            {to_class}
          </a>
        ) : (
          <TakeButton said={roster} takes={takes} bringing={bringing} />
        )
      }
      aside={
        <a class="button" href={back}>
          {to_class}
        </a>
      }
    >
      <TableForm said={roster} lines={10} bringing={bringing}>
        {looked ? <Told {...toldOf(looked, roster.would(looked))} /> : null}
        {done ? <Told {...toldOf(done, done.stored ? roster.did(done) : roster.none_taken)} /> : null}
        {[looked, done].some((report) => report?.lines.some((one) => one.has_pin)) ? (
          <p class="small soft">{roster.pin}</p>
        ) : null}
      </TableForm>
    </Screen>
  );
}

function toldOf(report: RosterReport, lead: string) {
  const { roster } = words.classes;
  return {
    lead,
    doubt: report.refused > 0 && !report.stored ? roster.all_or_none : undefined,
    lines: report.lines.map(({ line, name, outcome, field, message }) => ({
      line,
      place: [name ? `${roster.line(line)}, ${name}` : roster.line(line), outcome === 'refused' ? field : '']
        .filter(Boolean)
        .join(': '),
      message: outcome === 'refused' ? message : roster.outcome[outcome],
    })),
  };
}
