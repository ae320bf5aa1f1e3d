import { useEffect, useState } from 'preact/hooks';
import { call } from '../api/client';
import type { Change, JobFile } from '../api/schema';
import { useSaving } from '../controls/saving';
import { moment } from '../show/time';
import { lastChange } from '../state/connection';
import { personName, shop } from '../state/shop';
import { words } from '../words';
import { type JournalEntry, journalEntries } from './journal';

const PAGE = 500;

/** Every change of the job, oldest first. */
export function Journal({ file }: { file: JobFile }) {
  const [open, setOpen] = useState(false);
  return (
    <details class="opens journal" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{words.record.journal}</summary>
      <div class="opens-inner">{open ? <Entries file={file} /> : null}</div>
    </details>
  );
}

function Entries({ file }: { file: JobFile }) {
  const { record } = words;
  const [changes, setChanges] = useState<Change[] | null>(null);
  const saving = useSaving();
  useEffect(() => {
    const read = async () => {
      const all: Change[] = [];
      for (let after = 0; ; ) {
        const query = { after, limit: PAGE };
        const some = await call('get', '/jobs/{job_id}/changes', { path: { job_id: file.job.id }, query });
        all.push(...some);
        const last = some.at(-1);
        if (!last || some.length < PAGE) break;
        after = last.seq;
      }
      setChanges(all);
    };
    void saving.run(read);
  }, [file.job.id, lastChange.value?.seq]);
  if (saving.trouble)
    return (
      <p class="trouble" role="alert">
        {saving.trouble.message}
      </p>
    );
  if (!changes) return <p class="soft">{words.shell.loading}</p>;
  const { when, who, what, was, now } = record.journal_columns;
  return (
    <>
      <p class="small soft">{record.journal_lead}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keys */}
      <section class="journal-frame" aria-label={record.journal} tabIndex={0}>
        <table>
          <thead>
            <tr>
              {[when, who, what, was, now].map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {journalEntries(changes).map((entry) => (
              <Entry key={entry.change.id} entry={entry} />
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
}

function Entry({ entry }: { entry: JournalEntry }) {
  const { record } = words;
  const { change, first, fields } = entry;
  const rows = first || fields.length === 0 ? [null] : fields;
  return (
    <>
      {rows.map((field, i) => (
        <tr key={field?.path ?? ''}>
          <td class="figures when">{i === 0 ? moment(change.at, new Date()) : ''}</td>
          <td>{i === 0 ? personName(change.by_person_id) : ''}</td>
          <td>
            {i === 0 ? (record.kinds[change.kind] ?? change.kind) : ''}
            {field ? <span class="soft"> {fieldName(field.path)}</span> : null}
          </td>
          <td>{field ? showValue(field.path, field.old) : ''}</td>
          <td>{field ? showValue(field.path, field.new) : first ? gist(change) : ''}</td>
        </tr>
      ))}
    </>
  );
}

const fieldName = (path: string) => path.replace(/^limits\./, '').replace(/[._]/g, ' ');

type Tree = Record<string, unknown>;

/** A value of the journal in words: ids become names, lengths are as they were typed. */
function showValue(path: string, value: unknown): string {
  const { record } = words;
  if (value === null || value === undefined || value === '') return record.nothing;
  if (value === true || value === false) return value ? record.yes : record.no;
  if (path.endsWith('person_id')) return personName(String(value));
  if (path.endsWith('lathe_id')) return shop.value?.lathes.find((one) => one.id === value)?.name ?? String(value);
  if (path.endsWith('_at')) return moment(String(value), new Date());
  if (typeof value !== 'object') return String(value).replace(/_/g, ' ');
  const tree = value as Tree;
  if ('value' in tree) {
    const source = words.trade.limitSource[tree.source as keyof typeof words.trade.limitSource] ?? '';
    return `${showValue('', tree.value)}${source ? `, ${source}` : ''}`;
  }
  if ('text' in tree) return `${tree.text}`;
  if (Array.isArray(value)) return value.map((one) => showValue('', one)).join(', ');
  return Object.values(tree)
    .map((one) => showValue('', one))
    .join(', ');
}

/** What a new thing was, in a few words. */
function gist(change: Change): string {
  const detail = change.detail as Tree;
  const pieces = [
    'vehicle',
    'side',
    'quantity',
    'point',
    'value',
    'kind',
    'judgement',
    'action',
    'reason',
    'step',
    'pass',
    'outcome',
    'detail',
    'outboard_marks',
    'inboard_marks',
    'note',
    'text',
  ];
  return pieces
    .filter((name) => detail[name] !== undefined && detail[name] !== null && detail[name] !== '')
    .map((name) =>
      name === 'point'
        ? `${words.pictures.point.toLowerCase()} ${Number(detail[name]) + 1}`
        : showValue(name, detail[name]),
    )
    .join(' · ');
}
