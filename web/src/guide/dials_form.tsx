import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import { Field } from '../controls/field';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { marksOf } from '../cut/marks';
import { Screen } from '../shell/screen';
import { refreshAssessment, refreshJob } from '../state/job';
import { words } from '../words';
import type { Bench } from './bench';
import { type Cutting, taken } from './dials';
import { facesOf } from './faces';

/** What the dials took in all, filled in from the passes and put right by hand where it was otherwise. */
export function DialsForm({ bench, undo }: { bench: Bench; undo: preact.ComponentChildren }) {
  const { dials, outboard, inboard } = words.guide;
  const passes = bench.passes as readonly Cutting[];
  const sum = taken(passes);
  const [texts, setTexts] = useState<{ outboard?: string; inboard?: string; note: string }>({ note: '' });
  const [id] = useState(newId);
  const saving = useSaving();
  const text = (face: 'outboard' | 'inboard') => texts[face] ?? String(sum[face]);
  const marks = { outboard: marksOf(text('outboard')), inboard: marksOf(text('inboard')) };
  const record = () => {
    const { outboard: outboard_marks, inboard: inboard_marks } = marks;
    if (outboard_marks === null || inboard_marks === null || saving.busy) return;
    void saving.run(async () => {
      const body = { id, part_id: bench.part.id, outboard_marks, inboard_marks, note: texts.note.trim() };
      await call('post', '/jobs/{job_id}/cuts', { path: { job_id: bench.file.job.id }, body });
      await refreshJob();
      await refreshAssessment();
    });
  };
  const names = { outboard, inboard };
  return (
    <Screen
      name="guide"
      title={dials.title}
      aside={undo}
      next={
        <button type="button" class="main" disabled={saving.busy} onClick={record}>
          {dials.record}
        </button>
      }
    >
      <p class="guide-meta soft">
        {words.guide.rotor[bench.part.side]} · {dials.passes(passes.length)}
      </p>
      <p class="soft">{dials.lead}</p>
      {passes.at(-1)?.outcome === 'stopped' ? <p class="doubt">{dials.stopped}</p> : null}
      <div class="guide-dials">
        {facesOf(bench.part).map((face) => (
          <Field
            key={face}
            label={names[face]}
            value={text(face)}
            digits
            inputMode="numeric"
            error={marks[face] === null ? words.cut.whole_marks : undefined}
            onInput={(typed) => setTexts({ ...texts, [face]: typed })}
            onEnter={record}
          />
        ))}
      </div>
      <Field
        label={words.cut.note}
        hint={words.cut.note_hint}
        value={texts.note}
        onInput={(note) => setTexts({ ...texts, note })}
        onEnter={record}
      />
      <TroubleLine text={saving.trouble?.message} />
    </Screen>
  );
}
