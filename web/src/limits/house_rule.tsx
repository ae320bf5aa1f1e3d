import type { Limit, Part } from '../api/schema';
import { length } from '../show/length';
import { isDrum } from '../show/part_kind';
import { sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { figureOf, houseMachineTo } from './limit_doubts';

/** Machine-to is unknown: said so, and the shop's own allowance offered as what it is. */
export function HouseRule({ part, onTake }: { part: Part; onTake: (limit: Limit) => void }) {
  const allowance_nm = shop.value?.settings.house_allowance_nm ?? null;
  const discard = figureOf(part.limits.discard?.value);
  const sum = houseMachineTo(discard, allowance_nm, isDrum(part));
  const { house } = words.limits;
  if (!discard) return null;
  if (sum === null || allowance_nm === null) return <p class="small soft">{house.none}</p>;
  const unit = part.limits.discard?.value.unit ?? 'mm';
  const how = { unit, resolution_nm: Math.min(discard.resolution_nm, 25_400) };
  const take = () =>
    onTake({
      value: { text: length(sum, how), unit },
      source: 'house_rule',
      source_note: house.note(length(allowance_nm, how)),
    });
  return (
    <div class="doubt">
      <p>{house.offer(length(sum, how), length(allowance_nm, how))}</p>
      {sealed.value ? null : (
        <button type="button" onClick={take}>
          {house.take}
        </button>
      )}
    </div>
  );
}
