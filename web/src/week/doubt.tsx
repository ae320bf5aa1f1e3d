import type { Week, WeekInstrument } from '../api/schema';
import { percent } from '../show/length';
import { instrumentOf } from '../state/shop';
import { words } from '../words';
import { byShare, partOf, places2, sum, tells } from './figures';
import { WayTo, WeekPart } from './part';
import { intervalText, ShareBars } from './share_bars';
import type { Weeks } from './time';

const NM_PER_UM = 1000;
const nameOf = (id: string) => instrumentOf(id)?.name ?? words.week.doubt.gone;
const inDoubt = (week: Week) => sum(week.instruments.map((one) => one.in_doubt.count));
const readings = (week: Week) => sum(week.instruments.map((one) => one.readings));

/** Off at nothing by more than it may be: said in words, beside the others. */
function ZeroLine({ one }: { one: WeekInstrument }) {
  const { doubt: said } = words.week;
  const mpe_um = (instrumentOf(one.instrument_id)?.mpe_nm ?? 0) / NM_PER_UM;
  const off_um = one.zero_error_um;
  if (off_um === null || off_um === 0) return null;
  const over = mpe_um > 0 && off_um > mpe_um;
  return (
    <li class={over ? 'week-over' : ''}>
      {nameOf(one.instrument_id)}: {(over ? said.zero_over : said.zero)(places2(off_um), places2(mpe_um))}
    </li>
  );
}

export function InstrumentPart({ week, last }: Weeks) {
  const { doubt: said, last_week } = words.week;
  const rows = byShare(
    week.instruments.filter((one) => one.readings > 0),
    (one) => one.in_doubt,
  );
  const worst = rows.find((one) => one.stands_out) ?? rows[0];
  const zeros = week.instruments.filter((one) => one.zero_error_um !== null && one.zero_error_um > 0);
  const share = worst?.in_doubt;
  const largest = !worst
    ? { says: said.none }
    : !share || !tells(share)
      ? { says: said.few }
      : share.count === 0
        ? { figure: '0', says: said.clean(readings(week)) }
        : {
            figure: percent(partOf(share)),
            says: [
              said.largest(share, nameOf(worst.instrument_id), intervalText(share)),
              worst.stands_out ? said.beyond : said.by_chance,
            ].join(' '),
          };
  return (
    <WeekPart
      title={said.title}
      {...largest}
      before={readings(last) > 0 ? last_week(said.rests(inDoubt(last), readings(last))) : undefined}
      basis={worst ? said.basis : undefined}
      sources={rows.map((one) => ({ name: nameOf(one.instrument_id), numbers: one.job_numbers }))}
      ways={
        <>
          <WayTo to="/shop/instruments" name={said.to} />
          <WayTo to="/studies" name={said.studies} />
        </>
      }
    >
      {worst ? (
        <ShareBars
          name={said.title}
          kind="week-doubt"
          thing={said.instrument}
          figure={said.share}
          rows={rows.map((one) => ({
            name: nameOf(one.instrument_id),
            share: one.in_doubt,
            stands_out: one.stands_out,
          }))}
        />
      ) : null}
      {zeros.length > 0 ? (
        <ul class="week-notes">
          {zeros.map((one) => (
            <ZeroLine key={one.instrument_id} one={one} />
          ))}
        </ul>
      ) : null}
    </WeekPart>
  );
}

interface PieceProps extends Weeks {
  pieceName: (id: string) => string;
}

export function PiecePart({ week, last, pieceName }: PieceProps) {
  const { piece: said, last_week, doubt } = words.week;
  if (week.proofs === 0) return <WeekPart title={said.title} says={said.none} />;
  const rows = byShare(week.pieces, (one) => one.over);
  const told = rows.filter((one) => tells(one.over));
  const most = Math.max(0, ...week.pieces.map((one) => one.proofs));
  return (
    <WeekPart
      title={said.title}
      figure={percent(week.proofs_over_rule / week.proofs)}
      says={said.largest(week.proofs_over_rule, week.proofs)}
      before={last.proofs > 0 ? last_week(doubt.rests(last.proofs_over_rule, last.proofs)) : undefined}
      basis={said.basis}
      sources={rows.map((one) => ({
        name: `${pieceName(one.piece_id)}: ${doubt.rests(one.over_rule, one.proofs)}, ${said.mean_um(places2(one.mean_runout_um))}`,
        numbers: one.job_numbers,
      }))}
      ways={<WayTo to="/shop/pegboard" name={said.to} />}
    >
      {told.length > 0 ? (
        <ShareBars
          name={said.title}
          kind="week-piece"
          thing={said.piece}
          figure={said.share}
          rows={told.map((one) => ({ name: pieceName(one.piece_id), share: one.over, stands_out: one.stands_out }))}
        />
      ) : (
        <p>{said.few(most)}</p>
      )}
    </WeekPart>
  );
}
