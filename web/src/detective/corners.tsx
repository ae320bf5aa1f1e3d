import type { JobFile, PulsationAdvice } from '../api/schema';
import { percent } from '../show/length';
import { typeset } from '../show/typeset';
import { words } from '../words';
import { FitBar } from './fits';

/** Which corner of the car it comes from, as far as they were read; an unread one leads to its readings. */
export function Corners({ advice, file }: { advice: PulsationAdvice; file: JobFile }) {
  const { detective } = words;
  const { corners } = advice;
  if (corners.length === 0) return null;
  const read = corners.some((corner) => corner.read);
  return (
    <section aria-label={detective.corners}>
      <h2>{detective.corners}</h2>
      <ul class="fits">
        {corners.map((corner) => (
          <li key={corner.part_id}>
            <span class="fit-name">{detective.corner[corner.name] ?? corner.name}</span>
            {corner.probability === null ? (
              <span class="fit-p">
                {corner.job_id === file.job.id ? (
                  <a class="button" href={`/jobs/${file.job.number ?? ''}/before?part=${corner.side}`}>
                    {detective.read_it}
                  </a>
                ) : null}
              </span>
            ) : (
              <span class="fit-p figures">{percent(corner.probability)}</span>
            )}
            {corner.probability === null ? null : <FitBar p={corner.probability} />}
            <span class="fit-why small soft">{corner.read ? typeset(corner.why) : detective.not_read}</span>
          </li>
        ))}
        {read ? (
          <li>
            <span class="fit-name">{detective.other_corner}</span>
            <span class="fit-p figures">{percent(advice.p_other_corner)}</span>
            <FitBar p={advice.p_other_corner} />
          </li>
        ) : null}
      </ul>
      <p class="small soft">{detective.corners_note}</p>
    </section>
  );
}
