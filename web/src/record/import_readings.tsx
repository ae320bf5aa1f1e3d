import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { JobFile, Unit } from '../api/schema';
import { Field } from '../controls/field';
import { useSaving } from '../controls/saving';
import { Choice } from '../shell/choice';
import { refreshAssessment, refreshJob } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';

interface Report {
  added: number;
  known: number;
  refused: { line: number; field: string; message: string }[];
}

/** Readings from a table: looked at first, with every line that would be refused, and added on a second tap. */
export function ImportReadings({ file }: { file: JobFile }) {
  const { bring } = words.record;
  const [text, setText] = useState('');
  const [unit, setUnit] = useState<Unit>(shop.value?.settings.default_unit ?? 'mm');
  const [looked, setLooked] = useState<Report | null>(null);
  const [added, setAdded] = useState<Report | null>(null);
  const saving = useSaving();
  const send = (dry_run: boolean) =>
    saving.run(async () => {
      const asked = { path: { job_id: file.job.id }, query: { unit, dry_run }, body: text };
      const report = (await call('post', '/jobs/{job_id}/readings/import', asked)) as Report;
      if (dry_run) {
        setLooked(report);
        return;
      }
      setAdded(report);
      setLooked(null);
      setText('');
      await refreshJob();
      await refreshAssessment();
    });
  const change = (next: string) => {
    setText(next);
    setLooked(null);
    setAdded(null);
  };
  const open = async (files: FileList | null) => {
    const [chosen] = files ?? [];
    if (chosen) change(await chosen.text());
  };
  return (
    <section class="bring" aria-label={bring.title}>
      <h2>{bring.title}</h2>
      <p class="small soft">{bring.lead}</p>
      <label class="button">
        {bring.file}
        <input
          class="heard"
          type="file"
          accept=".csv,text/csv,text/plain"
          onChange={(event) => void open(event.currentTarget.files)}
        />
      </label>
      <Field label={bring.paste} lines={4} maxLength={1_000_000} value={text} onInput={change} />
      <Choice
        shown
        label={bring.unit}
        value={unit}
        options={(['mm', 'in'] as const).map((value) => ({ value, label: value }))}
        onChange={setUnit}
      />
      {saving.trouble ? (
        <p class="trouble" role="alert">
          {saving.trouble.message}
        </p>
      ) : null}
      {looked ? (
        <ReportOf report={looked} lead={bring.would(looked.added, looked.known, looked.refused.length)} />
      ) : null}
      {added ? <ReportOf report={added} lead={bring.did(added.added, added.known, added.refused.length)} /> : null}
      <div class="row">
        <button type="button" disabled={saving.busy || text.trim() === ''} onClick={() => send(true)}>
          {bring.look}
        </button>
        {looked && looked.added > 0 ? (
          <button type="button" disabled={saving.busy} onClick={() => send(false)}>
            {bring.add(looked.added)}
          </button>
        ) : null}
      </div>
    </section>
  );
}

function ReportOf({ report, lead }: { report: Report; lead: string }) {
  const { bring } = words.record;
  return (
    <div role="status">
      <p>{lead}</p>
      <ol class="refused-lines">
        {report.refused.map((one) => (
          <li key={`${one.line}${one.field}`} class="small">
            {bring.line(one.line)}: {one.message}
          </li>
        ))}
      </ol>
    </div>
  );
}
