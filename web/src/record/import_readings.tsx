import { call } from '../api/client';
import type { JobFile } from '../api/schema';
import type { components } from '../api/types';
import { useBringing } from '../bring/bringing';
import { TableForm, Told } from '../bring/table_form';
import { refreshAssessment, refreshJob } from '../state/job';
import { words } from '../words';

type Report = components['schemas']['ImportReport'];

/** Readings from a table: looked at first, with every line that would be refused, and added on a second tap. */
export function ImportReadings({ file }: { file: JobFile }) {
  const { bring } = words.record;
  const bringing = useBringing<Report>({
    draft: `readings.${file.job.id}`,
    post: ({ text, unit, dry_run }) => {
      const asked = { path: { job_id: file.job.id }, query: { unit, dry_run }, body: text };
      return call('post', '/jobs/{job_id}/readings/import', asked);
    },
    isTaken: () => true,
    afterwards: async () => {
      await refreshJob();
      await refreshAssessment();
    },
  });
  const { looked, done, saving } = bringing;
  return (
    <TableForm said={bring} lines={4} bringing={bringing}>
      {looked ? <Told {...toldOf(looked, bring.would(looked.added, looked.known, looked.refused.length))} /> : null}
      {done ? <Told {...toldOf(done, bring.did(done.added, done.known, done.refused.length))} /> : null}
      <div class="row">
        <button type="button" disabled={saving.busy || bringing.empty} onClick={bringing.look}>
          {bring.look}
        </button>
        {looked && looked.added > 0 ? (
          <button type="button" disabled={saving.busy} onClick={bringing.take}>
            {bring.add(looked.added)}
          </button>
        ) : null}
      </div>
    </TableForm>
  );
}

const toldOf = (report: Report, lead: string) => ({
  lead,
  lines: report.refused.map(({ line, message }) => ({ line, place: words.record.bring.line(line), message })),
});
