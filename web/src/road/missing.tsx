import type { JobFile, Part } from '../api/schema';
import { AskLength } from '../plan/missing';
import { words } from '../words';
import { type Picture, wayTo } from './ways';

const ASKED_HERE: Record<string, string> = {
  'part.outer_diameter': 'part.outer_diameter',
  'part.seat.ring_inner': 'seat.ring_inner',
};

interface Props {
  /** What is wanted for the picture that it stands beside. */
  fields: readonly string[];
  picture: Picture;
  file: JobFile;
  part: Part;
  /** A sealed job takes no figure any more. */
  open: boolean;
}

/** Figures that a picture still needs: one asked for on the spot, the others with the way to where they are told. */
export function Missing({ fields, picture, file, part, open }: Props) {
  const { road } = words;
  if (fields.length === 0) return null;
  const [here] = open ? fields.filter((field) => field in ASKED_HERE) : [];
  const ways = fields.flatMap((field) => wayTo(field, file.job.number, part.side) ?? []);
  const apart = [...new Map(ways.map((way) => [way.to, way])).values()];
  return (
    <section class="road-missing" aria-label={road.missing_for[picture]}>
      <h2>{road.missing_for[picture]}</h2>
      <ul>
        {fields
          .filter((field) => field !== here)
          .map((field) => (
            <li key={field}>{road.missing[field] ?? field}</li>
          ))}
      </ul>
      {here ? <AskLength key={here} file={file} part={part} field={ASKED_HERE[here] ?? here} /> : null}
      {open && apart.length > 0 ? (
        <p class="row">
          {apart.map((way) => (
            <a key={way.to} class="button" href={way.to}>
              {road.give[way.at]}
            </a>
          ))}
        </p>
      ) : null}
    </section>
  );
}
