import type { Week } from '../api/schema';
import { shop } from '../state/shop';
import { words } from '../words';
import { Bars } from './bars';
import { places2, sum, type UsedCorner, usedCorners } from './figures';
import { WayTo, WeekPart } from './part';
import type { Weeks } from './time';

const M_PER_KM = 1000;
const nameOf = (id: string) => shop.value?.inserts.find((one) => one.id === id)?.name ?? words.week.inserts.gone;
const metalOf = (week: Week) => sum(usedCorners(week).map(({ corner }) => corner.metal_cm3 ?? 0));
const keyOf = ({ insert_id, corner }: UsedCorner) => `${insert_id} ${corner.number}`;
const cornerName = ({ insert_id, corner }: UsedCorner) => words.week.inserts.corner(nameOf(insert_id), corner.number);

function cornerText({ corner }: UsedCorner): string {
  const { inserts: said, parts } = words.week;
  if (corner.metal_cm3 === null) return parts(corner.parts);
  return `${said.cm3(places2(corner.metal_cm3))}, ${parts(corner.parts)}`;
}

export function InsertPart({ week, last }: Weeks) {
  const { inserts: said, last_week } = words.week;
  const used = usedCorners(week);
  const before = new Map(usedCorners(last).map((one) => [keyOf(one), one]));
  const metal = metalOf(week);
  const states = week.inserts.map((one) => said.state(nameOf(one.insert_id), one.sharp_corners, one.corners));
  const parts = Math.max(0, ...used.map(({ corner }) => corner.parts));
  const passes = Math.max(0, ...used.map(({ corner }) => corner.passes));
  const largest =
    used.length === 0
      ? { says: said.none }
      : metal > 0
        ? { figure: said.cm3(places2(metal)), says: said.largest(used.length, passes, parts) }
        : { figure: words.week.parts(parts), says: said.unknown };
  return (
    <WeekPart
      title={said.title}
      {...largest}
      before={last_week(said.cm3(places2(metalOf(last))))}
      basis={used.length > 0 ? said.basis : undefined}
      sources={used.map((one) => ({
        name: `${cornerName(one)}, ${said.condition[one.corner.condition]}: ${said.note(one.corner.parts, said.km(places2(one.corner.cut_m / M_PER_KM)))}`,
        numbers: one.corner.job_numbers,
      }))}
      ways={<WayTo to="/shop/edges" name={said.to} />}
    >
      {used.length > 0 ? (
        <Bars
          name={said.title}
          kind="week-inserts"
          thing={said.name}
          rows={used.map((one) => {
            const same = before.get(keyOf(one));
            return {
              name: cornerName(one),
              now: metal > 0 ? (one.corner.metal_cm3 ?? 0) : one.corner.parts,
              now_text: cornerText(one),
              before: metal > 0 ? (same?.corner.metal_cm3 ?? 0) : (same?.corner.parts ?? 0),
              before_text: same ? cornerText(same) : said.cm3('0'),
            };
          })}
        />
      ) : null}
      <ul class="week-notes">
        {states.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </WeekPart>
  );
}
