import type { StudyGroup, StudyInterval, Unit } from '../api/schema';
import { shop } from '../state/shop';
import { words } from '../words';
import { biasAgainstSpread, digitsIn, fineUnit, offOf, sizeDigits, twoPlaces } from './deviations';
import { Sideways } from './sideways';

function within(unit: Unit, interval: StudyInterval | null | undefined, sign: boolean): string {
  if (!interval) return '';
  const [low, high] = [interval.low95, interval.high95].map((um) => digitsIn(unit, um, sign));
  return words.studies.answer.interval_in(low ?? '', high ?? '', fineUnit(unit));
}

/** One person, or one instrument: own uncertainty, off against spread, and each part's normalised error. */
export function GroupResult({ group, partName }: { group: StudyGroup; partName: (id: string) => string }) {
  const said = words.studies.person;
  const off = offOf(group);
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const other = unit === 'mm' ? 'in' : 'mm';
  const fine = fineUnit(unit);
  return (
    <div class="group-result">
      <dl class="study-figures">
        <div>
          <dt>{said.u}</dt>
          <dd>
            <span class="study-figure figures">{`${digitsIn(unit, group.u_reading_um)} ${fine}`}</span>
            <span class="small soft figures">{`${digitsIn(other, group.u_reading_um)} ${fineUnit(other)}`}</span>
          </dd>
          <dd class="small soft">{said.basis[group.u_reading_basis]}</dd>
        </div>
        {off ? (
          <div>
            <dt>{said.bias}</dt>
            <dd>
              <span class="study-figure figures">{`${digitsIn(unit, off.value, true)} ${fine}`}</span>
              <span class="small soft figures">{within(unit, off.interval, true)}</span>
            </dd>
            <dd class="small soft">{off.of === 'bias' ? said.bias_note : said.offset_note}</dd>
          </div>
        ) : null}
        {group.repeatability_sd_um === null ? null : (
          <div>
            <dt>{said.spread}</dt>
            <dd>
              <span class="study-figure figures">{`${digitsIn(unit, group.repeatability_sd_um)} ${fine}`}</span>
              <span class="small soft figures">{within(unit, group.repeatability_interval_um, false)}</span>
            </dd>
            <dd class="small soft">
              {[said.spread_note, group.spread_ratio === null ? '' : said.ratio(group.spread_ratio.toFixed(1))]
                .filter(Boolean)
                .join(' · ')}
            </dd>
          </div>
        )}
      </dl>
      <p>{said.versus[biasAgainstSpread(group)]}</p>
      <p>
        <strong>
          {group.parts_marked > 0 ? said.within(group.parts_within, group.parts_marked) : said.none_marked}
        </strong>
      </p>
      {group.errors.length > 0 ? <Errors {...{ group, partName, unit }} /> : null}
    </div>
  );
}

interface ErrorsProps {
  group: StudyGroup;
  partName: (id: string) => string;
  unit: Unit;
}

function Errors({ group, partName, unit }: ErrorsProps) {
  const said = words.studies.person;
  return (
    <>
      <Sideways label={said.en}>
        <table class="study-errors">
          <thead>
            <tr>
              <th scope="col">{said.part}</th>
              <th scope="col" class="digits">
                {said.mean}, {unit}
              </th>
              <th scope="col" class="digits">
                {said.reference}, {unit}
              </th>
              <th scope="col" class="digits">
                {said.difference}, {fineUnit(unit)}
              </th>
              <th scope="col" class="digits">
                {said.en}
              </th>
              <th scope="col">
                <span class="heard">{said.in}?</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {group.errors.map((one) => (
              <tr key={one.reference_part_id}>
                <th scope="row">{partName(one.reference_part_id)}</th>
                <td class="digits">{sizeDigits(unit, one.mean_um)}</td>
                <td class="digits">{sizeDigits(unit, one.reference_um)}</td>
                <td class="digits">{digitsIn(unit, one.difference_um, true)}</td>
                <td class="digits">{one.en === null ? '–' : twoPlaces(one.en)}</td>
                <td class={one.en !== null && Math.abs(one.en) > 1 ? 'study-out' : ''}>
                  {one.en === null ? '' : Math.abs(one.en) <= 1 ? said.in : said.out}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Sideways>
      <p class="small soft">{said.en_note}</p>
    </>
  );
}
