import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { call } from '../api/client';
import type { components } from '../api/types';
import { FileButton } from '../controls/file_button';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { words } from '../words';
import './record_check.css';

type Answer = components['schemas']['RecordCheck'];

/** Where it stands, also for who has not come in: whoever was given a record may ask whether it is the shop's. */
export const CHECK_ADDRESS = '/record-check';

/** Holds a PDF against the shop, and says what became of it. */
export function RecordCheck() {
  const { check } = words.record;
  const [file, setFile] = useState('');
  const [answer, setAnswer] = useState<Answer | null>(null);
  const saving = useSaving();
  const choose = async (chosen: File) => {
    if (saving.busy) return;
    setFile(chosen.name);
    setAnswer(null);
    // The API describes the body as text; it is the file as it is.
    const body = new Blob([chosen], { type: 'application/pdf' }) as unknown as string;
    await saving.run(async () => setAnswer(await call('post', '/record-check', { body })));
  };
  return (
    <Screen
      name="record-check"
      title={check.title}
      next={
        <FileButton class="main" accept=".pdf,application/pdf" onFile={(chosen) => void choose(chosen)}>
          {answer || saving.trouble ? check.another : check.choose}
        </FileButton>
      }
      aside={
        <a class="button" href="/">
          {check.back}
        </a>
      }
    >
      <p class="soft">{check.lead}</p>
      <div class="record-answer" aria-live="polite">
        {saving.busy ? <p class="soft">{check.looking(file)}</p> : null}
        {saving.trouble ? <h2>{check.refused(file)}</h2> : null}
        <TroubleLine text={saving.trouble?.message} />
        {answer ? <Told answer={answer} file={file} /> : null}
      </div>
    </Screen>
  );
}

function Told({ answer, file }: { answer: Answer; file: string }) {
  const { check } = words.record;
  const heading = useRef<HTMLHeadingElement>(null);
  useLayoutEffect(() => heading.current?.focus(), []);
  return (
    <section aria-label={check.answers[answer.answer]}>
      <p class="small soft file-name">{file}</p>
      <h2 tabIndex={-1} ref={heading}>
        {check.answers[answer.answer]}
      </h2>
      {answer.sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p class="small soft">{check.limits}</p>
    </section>
  );
}
