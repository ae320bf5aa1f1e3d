import { Figure, useWidth } from '../pictures/figure';
import { PX_A_LETTER, shortened } from '../pictures/shortened';
import { words } from '../words';

/** One figure of this week, with the same of the week before. */
export interface Bar {
  name: string;
  now: number;
  now_text: string;
  before: number;
  before_text: string;
}

interface Props {
  /** What the picture is called, and the heads of its table. */
  name: string;
  kind: string;
  thing: string;
  rows: readonly Bar[];
}

const NARROW = 560;
const NAME = 200;
const MOST_LETTERS = 23;
const TEXT = 120;
const BAR = 14;
const BEFORE = 6;
const LINE = 20;

const widthOf = (text: string) => PX_A_LETTER * text.length + 24;

/**
 * Figures as bars, the largest first: this week filled, the week before in outline under it. Where names are long, or
 * the screen is narrow, a name stands over its bar.
 */
export function Bars({ name, kind, thing, rows }: Props) {
  const { week: said } = words;
  const [frame, width] = useWidth(640);
  const over = width < NARROW || rows.some((one) => one.name.length > MOST_LETTERS);
  const [left, right] = over ? [0, width - 2] : [NAME, width - TEXT];
  // Where name and figure have no room beside each other, the figure stands on a line of its own.
  const line = over && rows.some((one) => PX_A_LETTER * one.name.length + widthOf(one.now_text) > width) ? LINE : 0;
  const step = (over ? 58 : 40) + line;
  const top = (over ? 26 : 8) + line;
  const most = Math.max(1e-9, ...rows.map((one) => Math.max(one.now, one.before)));
  const long = (value: number) => (value / most) * (right - left);
  return (
    <Figure
      name={name}
      kind={kind}
      says={rows.map((one) => said.bar_says(one.name, one.now_text, one.before_text)).join('. ')}
      table={{
        head: [thing, said.legend.now, said.legend.before],
        rows: rows.map((one) => [one.name, one.now_text, one.before_text]),
      }}
    >
      <div ref={frame}>
        <svg width={width} height={step * rows.length} aria-hidden="true">
          <path class="week-nought" d={`M${left + 0.5} 0V${step * rows.length}`} />
          {rows.map((one, i) => (
            <g key={one.name} transform={`translate(0 ${step * i})`}>
              <text class="week-name" x={over ? 8 : 0} y={over ? 17 : 21}>
                {shortened(one.name, !over ? NAME - 8 : line ? width : width - widthOf(one.now_text))}
              </text>
              <rect class="week-now" x={left} y={top} width={long(one.now)} height={BAR} />
              <rect class="week-before" x={left + 0.5} y={top + BAR + 2} width={long(one.before)} height={BEFORE} />
              <text
                class="week-value"
                x={!over ? left + long(one.now) + 8 : line ? 8 : width - 2}
                y={over ? 17 + line : 21}
                text-anchor={over && !line ? 'end' : 'start'}
              >
                {one.now_text}
              </text>
            </g>
          ))}
        </svg>
      </div>
      <Legend />
    </Figure>
  );
}

function Legend() {
  const { legend } = words.week;
  return (
    <ul class="legend-series small soft">
      <li>
        <svg width="22" height="14" aria-hidden="true">
          <rect class="week-now" y="2" width="22" height="10" />
        </svg>{' '}
        {legend.now}
      </li>
      <li>
        <svg width="22" height="14" aria-hidden="true">
          <rect class="week-before" x="0.5" y="4" width="21" height={BEFORE} />
        </svg>{' '}
        {legend.before}
      </li>
    </ul>
  );
}
