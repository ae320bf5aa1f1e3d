import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Unit } from '../api/schema';
import { Field } from '../controls/field';
import { FileButton } from '../controls/file_button';
import { TroubleLine } from '../controls/trouble_line';
import { Choice } from '../shell/choice';
import './bring.css';
import type { useBringing } from './bringing';

interface Props {
  /** Without a word for it, the table has no bare numbers and so no unit. */
  said: { title: string; lead: string; file: string; paste: string; unit?: string | undefined };
  lines: number;
  bringing: Pick<ReturnType<typeof useBringing<unknown>>, 'text' | 'unit' | 'saving' | 'change' | 'chooseUnit'>;
  children: ComponentChildren;
}

const UNITS: readonly Unit[] = ['mm', 'in'];

/** A file or a paste, and the unit of its bare numbers; what became of it below. */
export function TableForm({ said, lines, bringing, children }: Props) {
  const { text, unit, saving, change, chooseUnit } = bringing;
  return (
    <section class="bring" aria-label={said.title}>
      <h2>{said.title}</h2>
      <p class="small soft">{said.lead}</p>
      <FileButton accept=".csv,text/csv,text/plain" onFile={async (file) => change(await file.text())}>
        {said.file}
      </FileButton>
      <Field label={said.paste} lines={lines} maxLength={1_000_000} value={text} onInput={change} />
      {said.unit ? (
        <Choice
          shown
          label={said.unit}
          value={unit}
          options={UNITS.map((value) => ({ value, label: value }))}
          onChange={chooseUnit}
        />
      ) : null}
      <TroubleLine text={saving.trouble?.message} />
      {children}
    </section>
  );
}

export interface ToldLine {
  line: number;
  /** What the line is about, as far as it says. */
  place: string;
  message: string;
}

interface ToldProps {
  lead: string;
  doubt?: string | undefined;
  lines: readonly ToldLine[];
}

/** What became of a table, or would become of it, and each line that needs a word. */
export function Told({ lead, doubt, lines }: ToldProps) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => box.current?.scrollIntoView?.({ block: 'nearest' }), [lead, lines.length]);
  return (
    <div class="told" role="status" ref={box}>
      <p>{lead}</p>
      {doubt ? <p class="doubt">{doubt}</p> : null}
      <ol class="refused-lines">
        {lines.map(({ line, place, message }) => (
          <li key={`${line} ${place}`} class="small">
            {place}: {message}
          </li>
        ))}
      </ol>
    </div>
  );
}
