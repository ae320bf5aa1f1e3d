import type { RefitAdvice, RefitFitting } from '../api/schema';
import { Figure, useWidth } from '../pictures/figure';
import type { Turning } from '../pictures/ring_geometry';
import { digitsOfMm, type HowShown, lengthOfMm, percent } from '../show/length';
import { words } from '../words';
import { type Choosing, sameFitting } from './choice';
import { shortestTurn } from './turn';

interface Props {
  advice: RefitAdvice;
  choosing: Choosing;
  studs: number;
  turning: Turning;
  how: HowShown;
  locked: boolean;
}

const AIR = 1.08;
const ROW = 20;

export function fittingName(one: RefitFitting, studs: number, turning: Turning): string {
  const { positions } = words.refit;
  const { by, sense } = shortestTurn(one.position, studs, turning);
  const turn = by === 0 ? positions.on_mark : positions.turned(by, sense);
  return one.plate_name ? `${turn}, ${positions.plate(one.plate_name)}` : turn;
}

/** Every position with its likely runout and range against the limit, each to be chosen. */
export function Positions({ advice, choosing, studs, turning, how, locked }: Props) {
  const { positions } = words.refit;
  const { refit, limit } = advice;
  if (!refit) return null;
  const limit_um = limit ? limit.value_mm * 1000 : null;
  const most = AIR * Math.max(limit_um ?? 0, ...refit.all.map((one) => one.high95_um));
  const bare = refit.all.filter((one) => !one.plate_id);
  const worst = bare.reduce((a, b) => (b.runout_um > a.runout_um ? b : a), refit.best);
  const um = (value: number) => lengthOfMm(value / 1000, how);
  const table = {
    head: [positions.position, positions.runout, positions.range, positions.within],
    rows: refit.all.map((one) => [
      fittingName(one, studs, turning),
      um(one.runout_um),
      `${digitsOfMm(one.low95_um / 1000, how)} – ${um(one.high95_um)}`,
      one.p_within == null ? '' : percent(one.p_within),
    ]),
  };
  const says = positions.says(fittingName(refit.best, studs, turning), um(refit.best.runout_um), um(worst.runout_um));
  return (
    <section class="positions" aria-label={positions.title}>
      <h2>{positions.title}</h2>
      <Figure name={positions.title} kind="positions" says={says} table={table}>
        <div class="positions-rows">
          {refit.all.map((one) => (
            <button
              key={`${one.position}-${one.plate_id ?? ''}-${one.plate_position ?? ''}`}
              type="button"
              class="positions-row"
              aria-pressed={sameFitting(one, choosing.chosen)}
              disabled={locked}
              onClick={() =>
                choosing.change({
                  position: one.position,
                  plate_id: one.plate_id ?? null,
                  plate_position: one.plate_position ?? null,
                })
              }
            >
              <span class="positions-name">
                {fittingName(one, studs, turning)}
                <span class="small soft">
                  {[
                    sameFitting(one, refit.best) ? positions.best : '',
                    sameFitting(one, choosing.chosen) ? positions.chosen : '',
                    one.read ? positions.read : '',
                  ]
                    .filter(Boolean)
                    .join(', ')}
                </span>
              </span>
              <Bar one={one} most={most} limit_um={limit_um} />
              <span class="digits positions-value">{um(one.runout_um)}</span>
            </button>
          ))}
        </div>
      </Figure>
    </section>
  );
}

/** The likely runout as a bar, its range as a line over it, the limit as a mark through all rows. */
function Bar({ one, most, limit_um }: { one: RefitFitting; most: number; limit_um: number | null }) {
  const [frame, width] = useWidth(240);
  const x = (um: number) => (um / most) * width;
  return (
    <span ref={frame as never} class="positions-bar">
      <svg width={width} height={ROW} aria-hidden="true">
        <rect x="0" y="5" width={x(one.runout_um)} height="10" class="positions-fill" />
        <path d={`M${x(one.low95_um)} 10H${x(one.high95_um)}M${x(one.low95_um)} 5V15M${x(one.high95_um)} 5V15`} />
        {limit_um === null ? null : <path d={`M${x(limit_um)} 0V${ROW}`} class="positions-limit" />}
      </svg>
    </span>
  );
}
