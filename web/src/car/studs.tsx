import type { JobFile } from '../api/schema';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Choice } from '../shell/choice';
import { refreshJob } from '../state/job';
import { words } from '../words';
import { savePart } from './setup_draft';

const STUDS = ['3', '4', '5', '6', '7', '8', '9', '10', '11', '12'] as const;

interface Props {
  value: number | null;
  onChange: (studs: number) => void;
}

export function StudsChoice({ value, onChange }: Props) {
  return (
    <Choice
      shown
      label={words.car.setup.studs}
      value={value === null ? '' : String(value)}
      options={STUDS.map((one) => ({ value: one as string, label: one }))}
      onChange={(one) => onChange(Number(one))}
    />
  );
}

/** Counted where nothing else of the hub is asked: for every wheel of the job that is not back on the car. */
export function CountStuds({ file, value }: { file: JobFile; value: number | null }) {
  const saving = useSaving();
  const keep = (studs: number) =>
    saving.run(async () => {
      const off = file.parts.filter((part) => !file.refits.some((refit) => refit.part_id === part.id));
      for (const part of off) if (part.studs !== studs) await savePart(file, part, { ...part, studs });
      await refreshJob();
    });
  return (
    <section>
      <StudsChoice value={value} onChange={(studs) => void keep(studs)} />
      <TroubleLine text={saving.trouble?.message} />
    </section>
  );
}
