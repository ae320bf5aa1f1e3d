import type { RoadAdvice } from '../api/schema';
import { Figure, useWidth } from '../pictures/figure';
import { niceStep } from '../pictures/ladder';
import { words } from '../words';
import { type Heating, heatingOf, type RoadPart } from './rows';

const HEIGHT = 220;
const MARGIN = { left: 44, right: 12, top: 14, bottom: 40 };
const degrees = (value: number) => value.toFixed(0);

/** Stops one after another, before and after the cut beside each other and to one scale. */
export function Repeats({ part, stop }: { part: RoadPart; stop: RoadAdvice['stop'] }) {
  const { road } = words;
  const heatings = [heatingOf('before', part.heat_before), heatingOf('after', part.heat_after)].filter(
    (one): one is Heating => one !== null,
  );
  if (heatings.length === 0) return null;
  const most = Math.max(...heatings.flatMap((one) => one.stops.map((at) => at.high_c)));
  const step = niceStep(most, 5);
  const end = step * Math.ceil(most / step);
  const basis = part.heat_before?.repeats.basis ?? part.heat_after?.repeats.basis;
  return (
    <section class="road-block" aria-label={road.repeats.title(stop.stops)}>
      <h2>{road.repeats.title(stop.stops)}</h2>
      <p class="soft">{road.repeats.lead(degrees(stop.interval_s))}</p>
      <div class="repeats">
        {heatings.map((heating) => (
          <Panel key={heating.which} heating={heating} end={end} step={step} />
        ))}
      </div>
      {basis ? (
        <p class="small soft">
          {road.repeats.cooling}: {basis}
        </p>
      ) : null}
    </section>
  );
}

function Panel({ heating, end, step }: { heating: Heating; end: number; step: number }) {
  const { repeats, discs } = words.road;
  const [frame, width] = useWidth(340);
  const { stops, last } = heating;
  const right = width - MARGIN.right;
  const bottom = HEIGHT - MARGIN.bottom;
  const x = (number: number) => MARGIN.left + (number / stops.length) * (right - MARGIN.left);
  const y = (celsius: number) => bottom - (celsius / end) * (bottom - MARGIN.top);
  const edge = (side: 'low_c' | 'high_c') => stops.map((at) => `${x(at.number)} ${y(at[side])}`);
  const ticks = Array.from({ length: Math.round(end / step) + 1 }, (_, i) => i * step);
  const text = repeats.last(degrees(last.low_c), degrees(last.high_c));
  return (
    <div class="repeats-panel">
      <h3>{discs[heating.which]}</h3>
      <p>
        <span class="figures road-figure">{text}</span> <span class="soft">{repeats.after(stops.length)}</span>
      </p>
      <Figure
        name={`${repeats.name}: ${discs[heating.which]}`}
        kind="repeats"
        says={`${text} ${repeats.after(stops.length)}.`}
        table={{
          head: [
            repeats.stop_head,
            `${words.road.stop.from}, ${repeats.degrees}`,
            `${words.road.stop.to}, ${repeats.degrees}`,
          ],
          rows: stops.map((at) => [String(at.number), degrees(at.low_c), degrees(at.high_c)]),
        }}
      >
        <div ref={frame}>
          <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} aria-hidden="true">
            {ticks.map((tick) => (
              <g key={tick}>
                <path d={`M${MARGIN.left} ${y(tick)}H${right}`} class="trace-grid" />
                <text x={MARGIN.left - 6} y={y(tick) + 4} text-anchor="end" class="trace-word">
                  {tick}
                </text>
              </g>
            ))}
            <path d={`M${edge('high_c').join('L')}L${edge('low_c').reverse().join('L')}Z`} class="road-band" />
            <path d={`M${edge('low_c').join('L')}`} class="road-edge" />
            <path d={`M${edge('high_c').join('L')}`} class="road-edge" />
            {stops
              .filter((at) => at.number === 1 || at.number === stops.length)
              .map((at) => (
                <text
                  key={at.number}
                  x={x(at.number)}
                  y={bottom + 18}
                  text-anchor={at.number === 1 ? 'middle' : 'end'}
                  class="trace-word"
                >
                  {repeats.axis} {at.number}
                </text>
              ))}
          </svg>
        </div>
      </Figure>
    </div>
  );
}
