import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { Unit } from '../api/schema';
import type { components } from '../api/types';
import { Field } from '../controls/field';
import { useSaving } from '../controls/saving';
import { ask } from '../route/router';
import { Choice } from '../shell/choice';
import { ShopFrame } from '../shop/frame';
import { shop } from '../state/shop';
import { words } from '../words';
import { loadPegboard } from './board_state';

type Report = components['schemas']['PiecesReport'];

/** A table of pieces: looked at first, with every line that would be refused, and added on a second tap. */
export function ImportPieces() {
  const { bring } = words.pegboard;
  const [text, setText] = useState('');
  const [unit, setUnit] = useState<Unit>(shop.value?.settings.default_unit ?? 'mm');
  const [looked, setLooked] = useState<Report | null>(null);
  const [done, setDone] = useState<Report | null>(null);
  const saving = useSaving();
  const post = (dry_run: boolean) =>
    saving.run(async () => {
      const report = await call('post', '/pieces/import', { query: { unit, dry_run }, body: text });
      setLooked(dry_run ? report : null);
      setDone(dry_run ? null : report);
      if (!report.stored) return;
      setText('');
      await loadPegboard();
    });
  const change = (next: string) => {
    setText(next);
    setLooked(null);
    setDone(null);
  };
  const open = async (files: FileList | null) => {
    const [chosen] = files ?? [];
    if (chosen) change(await chosen.text());
  };
  const takes = looked && looked.refused === 0 ? looked.added + looked.changed : 0;
  return (
    <ShopFrame
      room="pegboard"
      next={
        <button
          type="button"
          class="main"
          disabled={saving.busy || text.trim() === ''}
          onClick={() => post(takes === 0)}
        >
          {takes > 0 ? bring.add(takes) : bring.look}
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
        {looked ? <ReportOf report={looked} lead={bring.would(looked)} /> : null}
        {done ? <ReportOf report={done} lead={done.stored ? bring.did(done) : bring.none_taken} /> : null}
      </section>
    </ShopFrame>
  );
}

function ReportOf({ report, lead }: { report: Report; lead: string }) {
  const { bring } = words.pegboard;
  const told = report.lines.filter((one) => one.outcome === 'refused' || one.outcome === 'changed');
  return (
    <div role="status">
      <p>{lead}</p>
      {report.refused > 0 && !report.stored ? <p class="doubt">{bring.all_or_none}</p> : null}
      <ol class="refused-lines">
        {told.map((one) => (
          <li key={one.line} class="small">
            {bring.line(one.line)}
            {one.name ? `, ${one.name}` : ''}: {one.field ? `${one.field}: ` : ''}
            {one.message}
          </li>
        ))}
      </ol>
    </div>
  );
}
