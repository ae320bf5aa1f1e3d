import type { WeekShare } from '../api/schema';
import { Figure, useWidth } from '../pictures/figure';
import { niceStep } from '../pictures/ladder';
import { shortened } from '../pictures/shortened';
import { percent } from '../show/length';
import { words } from '../words';
import { partOf, tells } from './figures';

export interface ShareRow {
  name: string;
  share: WeekShare;
  stands_out: boolean;
}

interface Props {
  name: string;
  kind: string;
  /** Heads of the table. */
  thing: string;
  figure: string;
  rows: readonly ShareRow[];
}

const NARROW = 680;
const NAME = 264;
const TEXT = 190;
const STEP = 40;
const LINE = 16;
const BAR = 14;
const FOOT = 24;
const MOST_TICKS = 4;
const PERCENT = 100;

/** What stands beside a share. */
export function shareText({ share }: ShareRow): string {
  const { doubt } = words.week;
  return tells(share) ? `${percent(partOf(share))} (${doubt.rests(share.count, share.of)})` : doubt.too_few(share.of);
}

/** The same with what follows from it, as it is read out. */
const saidOf = (row: ShareRow) =>
  row.stands_out ? `${shareText(row)}, ${words.week.doubt.stands_out}` : shareText(row);

export const intervalText = (share: WeekShare) =>
  tells(share) ? `${percent(share.low95)} … ${percent(share.high95)}` : '–';

/** Shares with their intervals; what rests on too few has no bar, and says so. */
export function ShareBars({ name, kind, thing, figure, rows }: Props) {
  const [frame, width] = useWidth(640);
  const narrow = width < NARROW;
  const told = rows.filter((one) => tells(one.share));
  const step_percent = niceStep(PERCENT * Math.max(0.05, ...told.map((one) => one.share.high95)), MOST_TICKS);
  const most = Math.max(...told.map((one) => one.share.high95), 0.05);
  const end = Math.min(1, (Math.ceil((PERCENT * most) / step_percent) * step_percent) / PERCENT);
  const [left, right] = narrow ? [2, width - 24] : [NAME, width - TEXT];
  const step = narrow ? 72 : STEP;
  const top = narrow ? 44 : 10;
  const x = (part: number) => left + (Math.min(part, end) / end) * (right - left);
  const ticks = Array.from({ length: Math.round((PERCENT * end) / step_percent) + 1 }, (_, k) => k * step_percent);
  const height = step * rows.length + FOOT;
  return (
    <Figure
      name={name}
      kind={kind}
      says={rows.map((one) => `${one.name}: ${saidOf(one)}`).join('. ')}
      table={{
        head: [thing, figure, words.week.doubt.interval],
        rows: rows.map((one) => [one.name, saidOf(one), intervalText(one.share)]),
      }}
    >
      <div ref={frame}>
        <svg width={width} height={height} aria-hidden="true">
          {ticks.map((one) => (
            <g key={one}>
              <path class={one === 0 ? 'week-nought' : 'trace-grid'} d={`M${x(one / PERCENT)} 0V${height - FOOT}`} />
              <text
                class="trace-word"
                x={x(one / PERCENT)}
                y={height - 6}
                text-anchor={one === 0 && narrow ? 'start' : 'middle'}
              >
                {one} %
              </text>
            </g>
          ))}
          {rows.map((one, i) => (
            <g key={one.name} transform={`translate(0 ${step * i})`}>
              <text class="week-name" x={narrow ? 8 : 0} y={narrow ? 17 : 22}>
                {shortened(one.name, narrow ? width : NAME - 8)}
              </text>
              {tells(one.share) ? (
                <>
                  <rect class="week-now" x={left} y={top} width={x(partOf(one.share)) - left} height={BAR} />
                  <path
                    class="study-interval"
                    d={`M${x(one.share.low95)} ${top + 3}v8m0 -4H${x(one.share.high95)}m0 -4v8`}
                  />
                </>
              ) : null}
              <text
                class={tells(one.share) ? 'week-value' : 'trace-word'}
                x={narrow ? 8 : right + 16}
                y={narrow ? 36 : 22}
              >
                {shareText(one)}
              </text>
              {one.stands_out ? (
                <text
                  class="week-worse"
                  x={narrow ? width - 2 : right + 16}
                  y={narrow ? 36 : 22 + LINE}
                  text-anchor={narrow ? 'end' : 'start'}
                >
                  {words.week.doubt.stands_out}
                </text>
              ) : null}
            </g>
          ))}
        </svg>
      </div>
    </Figure>
  );
}
