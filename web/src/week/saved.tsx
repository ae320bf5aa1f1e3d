import type { Week } from '../api/schema';
import { Field } from '../controls/field';
import { Opens } from '../controls/opens';
import { words } from '../words';
import { Bars } from './bars';
import { WeekPart } from './part';
import { isWrong, keepPrices, prices, sumText } from './prices';
import type { Weeks } from './time';

const FATES = ['cut', 'left', 'replaced'] as const;
const partsOf = (week: Week) => ({ cut: week.parts_cut, left: week.parts_left, replaced: week.parts_replaced });
const numbersOf = (week: Week) => ({
  cut: week.cut_job_numbers,
  left: week.left_job_numbers,
  replaced: week.replaced_job_numbers,
});

export function SavedPart({ week, last }: Weeks) {
  const { saved: said, last_week, parts } = words.week;
  const [now, before] = [partsOf(week), partsOf(last)];
  const rows = FATES.filter((fate) => now[fate] > 0 || before[fate] > 0).sort((a, b) => now[b] - now[a]);
  return (
    <>
      <WeekPart
        title={said.title}
        figure={rows.length > 0 ? String(now.cut) : undefined}
        says={rows.length > 0 ? said.largest(now.cut) : said.none}
        before={rows.length > 0 ? last_week(String(before.cut)) : undefined}
        basis={said.basis}
        sources={FATES.map((fate) => ({ name: said.fate[fate], numbers: numbersOf(week)[fate] }))}
      >
        {rows.length > 0 ? (
          <Bars
            name={said.title}
            kind="week-saved"
            thing={said.what}
            rows={rows.map((fate) => ({
              name: said.fate[fate],
              now: now[fate],
              now_text: parts(now[fate]),
              before: before[fate],
              before_text: parts(before[fate]),
            }))}
          />
        ) : null}
      </WeekPart>
      <MoneyPart week={week} last={last} />
    </>
  );
}

/** Opened, the fields stay where they are while the sum comes and changes over them. */
function MoneyPart({ week, last }: Weeks) {
  const { saved: said, last_week } = words.week;
  const { money } = prices.value;
  const sum = week.money_saved;
  const told =
    sum === null
      ? {}
      : {
          figure: sumText(Math.abs(sum), money),
          says: sum < 0 ? said.lost(week.parts_cut) : said.money(week.parts_cut),
          before: last.money_saved === null ? undefined : last_week(sumText(last.money_saved, money)),
        };
  return (
    <WeekPart title={said.money_title} {...told}>
      <Opens title={said.prices}>
        <PriceFields />
      </Opens>
    </WeekPart>
  );
}

function PriceFields() {
  const { saved: said } = words.week;
  const { part, cut, money } = prices.value;
  const wrong = (text: string) => (isWrong(text) ? said.wrong : undefined);
  return (
    <div class="week-prices fields">
      <Field
        label={said.part}
        value={part}
        inputMode="decimal"
        digits
        maxLength={12}
        note={said.part_hint}
        error={wrong(part)}
        onInput={(text) => keepPrices({ part: text })}
      />
      <Field
        label={said.cut}
        value={cut}
        inputMode="decimal"
        digits
        maxLength={12}
        note={said.cut_note}
        error={wrong(cut)}
        onInput={(text) => keepPrices({ cut: text })}
      />
      <Field
        label={said.money_name}
        value={money}
        maxLength={8}
        note={said.kept}
        onInput={(text) => keepPrices({ money: text })}
      />
    </div>
  );
}
