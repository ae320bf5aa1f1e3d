import { call } from '../api/client';
import type { Week } from '../api/schema';
import { OnlyLeads } from '../class/only_leads';
import { TroubleLine } from '../controls/trouble_line';
import { place } from '../route/router';
import { Screen } from '../shell/screen';
import { calendarDay, dayAndMonth } from '../show/time';
import { useStanding } from '../state/answer';
import { WEEK } from '../state/kinds';
import { leads } from '../state/role';
import { words } from '../words';
import './week.css';
import { InstrumentPart, PiecePart } from './doubt';
import { inNeed, isEmpty } from './figures';
import { HelpPart } from './help';
import { InsertPart } from './inserts';
import { asked, prices } from './prices';
import { SavedPart } from './saved';
import { after, before, inShop, lastDay, type Span, spanOf } from './span';
import { LathePart, TimePart } from './time';

/** A whole week is worked out anew: not for each reading of a busy class. */
const SETTLE_MS = 10_000;

/** The teacher's week: where time goes, what reads badly, who needs help, inserts, parts saved. */
export const WeekScreen = () => (leads.value ? <TheWeek /> : <OnlyLeads />);

function useWeeks(span: Span) {
  const wanted = asked(prices.value);
  const of = (one: Span) => call('get', '/week', { query: { ...inShop(one), ...wanted } });
  const read = async () => {
    const [week, last, board] = await Promise.all([of(span), of(before(span)), call('get', '/pegboard')]);
    return { day: span.day, week, last, names: new Map(board.map(({ piece }) => [piece.id, piece.name])) };
  };
  const question = [span.day, wanted.part_price, wanted.cut_cost];
  return useStanding(read, WEEK, { of: question, settle_ms: SETTLE_MS });
}

function TheWeek() {
  const { week: said } = words;
  const now = new Date();
  const span = spanOf(place.value.query.from, now);
  const isPresent = span.to > now;
  const { answer, trouble } = useWeeks(span);
  const shown = answer?.day === span.day ? answer : null;
  return (
    <Screen
      name="week"
      title={said.title(dayAndMonth(span.from), calendarDay(lastDay(span).toISOString()))}
      next={
        <a class="button main later" href="/class">
          {words.classes.title}
        </a>
      }
      aside={<Ways span={span} now={now} />}
    >
      <TroubleLine text={trouble?.message} />
      {shown ? null : <p class="soft">{trouble ? '' : said.waiting}</p>}
      {shown ? (
        <>
          <Lead week={shown.week} last={shown.last} isPresent={isPresent} />
          {isEmpty(shown.week) ? (
            inNeed(shown.week.people).length > 0 ? (
              <HelpPart {...shown} />
            ) : null
          ) : (
            <div class="week-columns">
              <div class="week-column">
                <TimePart {...shown} />
                <InstrumentPart {...shown} />
                <HelpPart {...shown} />
              </div>
              <div class="week-column">
                <LathePart {...shown} />
                <PiecePart {...shown} pieceName={(id) => shown.names.get(id) ?? said.piece.gone} />
                <InsertPart {...shown} />
                <SavedPart {...shown} />
              </div>
            </div>
          )}
        </>
      ) : null}
    </Screen>
  );
}

function Lead({ week, last, isPresent }: { week: Week; last: Week; isPresent: boolean }) {
  const { week: said } = words;
  if (isEmpty(week)) return <p class="week-empty">{isPresent ? said.empty_now : said.empty}</p>;
  return (
    <p>
      {isPresent ? `${said.so_far} ` : ''}
      {said.worked(week.jobs, week.sealed_jobs, last.jobs)}
    </p>
  );
}

function Ways({ span, now }: { span: Span; now: Date }) {
  const { week: said } = words;
  const next = after(span, now);
  const isNext = next !== null && after(next, now) === null;
  return (
    <nav class="week-ways" aria-label={said.choose}>
      <a class="button" href={`/week?from=${before(span).day}`}>
        {said.before}
      </a>
      {next && !isNext ? (
        <a class="button" href={`/week?from=${next.day}`}>
          {said.after}
        </a>
      ) : null}
      {next ? (
        <a class="button" href="/week">
          {said.present}
        </a>
      ) : null}
    </nav>
  );
}
