import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { JobFile } from '../api/schema';
import { Field } from '../controls/field';
import { useSaving } from '../controls/saving';
import { moment } from '../show/time';
import { refreshJob } from '../state/job';
import { personName } from '../state/shop';
import { words } from '../words';

/** Later words on a sealed job. They stand beside the original and change nothing of it. */
export function Amendments({ file }: { file: JobFile }) {
  const { record } = words;
  const [text, setText] = useState('');
  const [id, setId] = useState(newId);
  const saving = useSaving();
  const add = () =>
    saving.run(async () => {
      const body = { id, text: text.trim() };
      await call('post', '/jobs/{job_id}/amendments', { path: { job_id: file.job.id }, body });
      await refreshJob();
      setText('');
      setId(newId());
    });
  return (
    <section class="amendments" aria-label={record.amendments}>
      <h2>{record.amendments}</h2>
      {file.amendments.length === 0 ? <p class="soft">{record.no_amendments}</p> : null}
      <ul>
        {file.amendments.map((one) => (
          <li key={one.id}>
            <p>{one.text}</p>
            <p class="small soft">
              {personName(one.by_person_id)}, {moment(one.at, new Date())}
            </p>
          </li>
        ))}
      </ul>
      <Field
        label={record.amend_text}
        note={record.amend_lead}
        lines={3}
        value={text}
        error={saving.trouble?.message}
        onInput={setText}
      />
      <button type="button" disabled={saving.busy || text.trim() === ''} onClick={add}>
        {record.amend_save}
      </button>
    </section>
  );
}
