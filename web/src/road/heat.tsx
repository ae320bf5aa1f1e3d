import type { RoadAdvice } from '../api/schema';
import { Figure } from '../pictures/figure';
import { niceStep } from '../pictures/ladder';
import { type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import { type HeatRow, heatRows, type RoadPart } from './rows';

interface Props {
  part: RoadPart;
  stop: RoadAdvice['stop'];
  how: HowShown;
}

const whole = (value: number) => value.toFixed(0);

/** One stop: how much hotter the face gets, for each disc that is known, on one scale. */
export function OneStop({ part, stop, how }: Props) {
  const { road } = words;
  const rows = heatRows(part);
  if (rows.length === 0) return null;
  const most = Math.max(...rows.map((row) => row.high_k), 1);
  const step = niceStep(most, 5);
  const end = step * Math.ceil(most / step);
  const share = (kelvin: number) => `${(100 * kelvin) / end}%`;
  const ticks = Array.from({ length: Math.round(end / step) + 1 }, (_, i) => i * step);
  return (
    <section class="road-block" aria-label={road.stop.title}>
      <h2>{road.stop.title}</h2>
      <p class="soft">{road.stop.lead(whole(stop.speed_km_per_h), stop.t_stop_s.toFixed(1))}</p>
      {part.hotter_percent === null ? null : <Hotter percent={part.hotter_percent} />}
      <Figure
        name={road.stop.name}
        kind="heat"
        says={rows
          .map((row) => `${road.discs[row.which]}: ${road.stop.rise(whole(row.low_k), whole(row.high_k))}.`)
          .join(' ')}
        table={{
          head: [road.stop.disc_head, road.stop.thickness_head, road.stop.middle_head, road.stop.from, road.stop.to],
          rows: rows.map((row) => [
            road.discs[row.which],
            lengthOfMm(row.disc.thickness_mm, how),
            `${whole(row.rise_k)} °C`,
            `${whole(row.low_k)} °C`,
            `${whole(row.high_k)} °C`,
          ]),
        }}
      >
        <div class="heat-rows" aria-hidden="true">
          {rows.map((row) => (
            <HeatLine key={row.which} row={row} share={share} how={how} />
          ))}
          <div class="heat-axis small soft figures">
            {ticks.map((tick) => (
              <span key={tick} style={{ left: share(tick) }}>
                {tick}
              </span>
            ))}
          </div>
          <p class="small soft heat-unit">{road.stop.axis}</p>
        </div>
      </Figure>
    </section>
  );
}

const LEAST_SAID = 0.05;

function Hotter({ percent }: { percent: number }) {
  const { stop } = words.road;
  if (percent < LEAST_SAID) return <p class="road-lead">{stop.cooler}</p>;
  return <p class="road-lead figures">{stop.hotter(percent < 10 ? percent.toFixed(1) : whole(percent))}</p>;
}

function HeatLine({ row, share, how }: { row: HeatRow; share: (kelvin: number) => string; how: HowShown }) {
  const { road } = words;
  return (
    <div class={`heat-row heat-${row.which}`}>
      <span class="heat-word">
        {road.discs[row.which]}
        <span class="small soft figures">
          {' '}
          {road.stop.thick(lengthOfMm(row.disc.thickness_mm, how))} · {road.stop.disc(row.disc.mass_kg.toFixed(1))}
        </span>
      </span>
      <span class="heat-value figures">{road.stop.rise(whole(row.low_k), whole(row.high_k))}</span>
      <span class="heat-bar">
        <span class="heat-fill" style={{ width: share(row.low_k) }} />
        <span
          class="heat-band"
          style={{ left: share(row.low_k), width: `calc(${share(row.high_k)} - ${share(row.low_k)})` }}
        />
        <span class="heat-middle" style={{ left: share(row.rise_k) }} />
      </span>
    </div>
  );
}
