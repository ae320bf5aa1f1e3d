import type { Limit, Part } from '../api/schema';
import { length, NM_PER_IN } from '../show/length';
import { sealed } from '../state/job';
import { words } from '../words';
import { figureOf } from './limit_doubts';

/** Over nominal, on the diameter, for light vehicles. Common practice, no source; the figure cast in the drum wins. */
const OVER_NEW_NM = { machine_to: 0.06 * NM_PER_IN, discard: 0.09 * NM_PER_IN };

interface Props {
  name: 'machine_to' | 'discard';
  part: Part;
  onTake: (limit: Limit) => void;
}

/** What the trade commonly allows a drum over its new size, offered as what it is. */
export function CommonAllowance({ name, part, onTake }: Props) {
  const { allowances } = words.limits;
  const nominal = figureOf(part.limits.nominal?.value);
  if (!nominal || sealed.value) return null;
  const unit = part.limits.nominal?.value.unit ?? 'mm';
  const how = { unit, resolution_nm: unit === 'mm' ? 10_000 : 25_400 };
  const over = length(OVER_NEW_NM[name], { unit: 'in', resolution_nm: 25_400 });
  const sum = length(nominal.nm + OVER_NEW_NM[name], how);
  const take = () =>
    onTake({ value: { text: sum, unit }, source: 'common_practice', source_note: allowances.note(over) });
  return (
    <div class="doubt">
      <p>{allowances.lead}</p>
      <button type="button" onClick={take}>
        {allowances[name](sum, over)}
      </button>
    </div>
  );
}
