import type { Assessment, Lathe, Unit } from '../api/schema';
import { areMeasured, dialsOf, typedDials } from '../show/dials';
import { lengthOfMm } from '../show/length';
import { typeset } from '../show/typeset';
import { words } from '../words';

interface Props {
  bench: Assessment['bench'] | undefined;
  lathe: Lathe | null;
  unit: Unit;
}

/** A tenth of a micrometre: marks are told apart by less than a micrometre. */
const FINEST = 100;

/** Which value of a mark the depths beside it are reckoned with, and what that rests on. */
export function DialBasis({ bench, lathe, unit }: Props) {
  const { dials: said } = words;
  const how = { unit, resolution_nm: FINEST };
  const mark = ({ outboard_um, inboard_um }: ReturnType<typeof typedDials>) =>
    outboard_um === inboard_um
      ? lengthOfMm(outboard_um / 1000, how)
      : said.each(lengthOfMm(outboard_um / 1000, how), lengthOfMm(inboard_um / 1000, how));
  const dials = dialsOf(bench, lathe);
  const measured = areMeasured(dials, lathe);
  return (
    <p class="small soft figures dial-basis">
      {measured
        ? said.as_measured(mark(dials), mark(typedDials(lathe)))
        : lathe
          ? said.as_typed(mark(dials), lathe.name)
          : said.as_assumed(mark(dials))}{' '}
      {bench?.basis ? typeset(bench.basis) : null}
    </p>
  );
}
