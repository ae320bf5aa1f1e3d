import type { Assessment, Lathe, Part, Unit } from '../api/schema';
import { areMeasured, dialsOf, markInWords, typedDials } from '../show/dials';
import { isDrum } from '../show/part_kind';
import { typeset } from '../show/typeset';
import { words } from '../words';

interface Props {
  part: Part;
  bench: Assessment['bench'] | undefined;
  lathe: Lathe | null;
  unit: Unit;
}

/** A tenth of a micrometre: marks are told apart by less than a micrometre. */
const FINEST = 100;

/** Which value of a mark the depths beside it are reckoned with, and what that rests on. */
export function DialBasis({ part, bench, lathe, unit }: Props) {
  const { dials: said } = words;
  const drum = isDrum(part);
  const mark = (dials: ReturnType<typeof typedDials>) => markInWords(dials, drum, { unit, resolution_nm: FINEST });
  const dials = dialsOf(bench, lathe);
  return (
    <p class="small soft figures dial-basis">
      {areMeasured(dials, lathe, drum)
        ? said.as_measured(mark(dials), mark(typedDials(lathe)))
        : lathe
          ? said.as_typed(mark(dials), lathe.name)
          : said.as_assumed(mark(dials))}{' '}
      {bench?.basis ? typeset(bench.basis) : null}
    </p>
  );
}
