import { useState } from 'preact/hooks';
import { send, signed } from '../api/client';
import type { Unit } from '../api/schema';
import { Field } from '../controls/field';
import { useSaving } from '../controls/saving';
import { ask } from '../route/router';
import { Choice } from '../shell/choice';
import { ShopFrame } from '../shop/frame';
import { shop } from '../state/shop';
import { words } from '../words';
import { loadPegboard } from './board_state';

interface Report {
  added: number;
  known: number;
  refused: { line: number; field: string; message: string }[];
}

/** A table of pieces: looked at first, with every line that would be refused, and added on a second tap. */
export function ImportPieces() {
  const { bring } = words.pegboard;
  const [text, setText] = useState('');
  const [unit, setUnit] = useState<Unit>(shop.value?.settings.default_unit ?? 'mm');
  const [looked, setLooked] = useState<Report | null>(null);
  const [added, setAdded] = useState<Report | null>(null);
  const saving = useSaving();
  const post = (dry_run: boolean) =>
    saving.run(async () => {
      const path = '/pieces/import';
      const query = signed('post', path, { unit, dry_run });
      const report = (await send({ method: 'post', path, query, body: text })) as Report;
      setLooked(dry_run ? report : null);
      setAdded(dry_run ? null : report);
      if (dry_run) return;
      setText('');
      await loadPegboard();
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
  const ready = looked !== null && looked.added > 0;
  return (
    <ShopFrame
      room="pegboard"
      next={
        <button type="button" class="main" disabled={saving.busy || text.trim() === ''} onClick={() => post(!ready)}>
          {ready ? bring.add(looked.added) : bring.look}
        </button>
      }
      aside={
        <button type="button" onClick={() => ask({ view: '' })}>
          {words.pegboard.to_board}
        </button>
      }
    >
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
        <Field label={bring.paste} lines={8} maxLength={1_000_000} value={text} onInput={change} />
        <Choice
          shown
          label={bring.unit}
          value={unit}
          options={(['mm', 'in'] as const).map((value) => ({ value, label: value }))}
          onChange={(value) => {
            setUnit(value);
            setLooked(null);
          }}
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
      </section>
    </ShopFrame>
  );
}

function ReportOf({ report, lead }: { report: Report; lead: string }) {
  const { bring } = words.pegboard;
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
