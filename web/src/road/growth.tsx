import { Figure, useWidth } from '../pictures/figure';
import { niceStep } from '../pictures/ladder';
import { typeset } from '../show/typeset';
import { grouped, rounded } from '../show/wear';
import { words } from '../words';
import type { RoadPart } from './rows';

type Growing = NonNullable<RoadPart['growth']>;

const HEIGHT = 240;
const MARGIN = { left: 44, right: 16, top: 30, bottom: 42 };

/** What runout that is left in does to the disc: a range of variation against distance, with its source. */
export function Growth({ part }: { part: RoadPart }) {
  const { road } = words;
  const { growth } = part;
  if (!growth) return null;
  const { felt_from_km: from, felt_to_km: to } = growth;
  return (
    <section class="road-block" aria-label={road.growth.title}>
      <h2>{road.growth.title}</h2>
      {from !== null && to !== null ? (
        <p>
          <span class="figures road-figure">{road.growth.from_to(grouped(rounded(from)), grouped(rounded(to)))}</span>{' '}
          <span class="soft">{road.growth.until}</span>
        </p>
      ) : null}
      <p>{typeset(growth.text)}</p>
      {growth.curve.length > 1 ? <Curve growth={growth} /> : null}
      <p class="small soft">
        {part.growth_basis ? `${typeset(part.growth_basis)} · ` : ''}
        {words.shell.source}: {growth.source}
      </p>
    </section>
  );
}

function Curve({ growth }: { growth: Growing }) {
  const said = words.road.growth;
  const [frame, width] = useWidth(560);
  const right = width - MARGIN.right;
  const bottom = HEIGHT - MARGIN.bottom;
  const farthest = Math.max(...growth.curve.map((at) => at.km), 1);
  const most = Math.max(...growth.curve.map((at) => at.high_um), 1);
  const step = niceStep(most, 4);
  const end = step * Math.ceil(most / step);
  const x = (km: number) => MARGIN.left + (km / farthest) * (right - MARGIN.left);
  const y = (um: number) => bottom - (um / end) * (bottom - MARGIN.top);
  const edge = (side: 'low_um' | 'high_um') => growth.curve.map((at) => `${x(at.km)} ${y(at[side])}`);
  const km_step = niceStep(farthest, Math.max(2, Math.floor((right - MARGIN.left) / 70)));
  const ticks = (last: number, by: number) =>
    Array.from({ length: Math.floor(last / by + 1e-9) + 1 }, (_, i) => i * by);
  const at_end = growth.curve.at(-1);
  return (
    <Figure
      name={said.name}
      kind="growth"
      says={at_end ? said.after(grouped(at_end.km), at_end.low_um.toFixed(0), at_end.high_um.toFixed(0)) : ''}
      table={{
        head: [...said.head],
        rows: growth.curve.map((at) => [grouped(at.km), `${at.low_um.toFixed(0)} µm`, `${at.high_um.toFixed(0)} µm`]),
      }}
    >
      <div ref={frame}>
        <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} aria-hidden="true">
          {ticks(end, step).map((um) => (
            <g key={um}>
              <path d={`M${MARGIN.left} ${y(um)}H${right}`} class="trace-grid" />
              <text x={MARGIN.left - 6} y={y(um) + 4} text-anchor="end" class="trace-word">
                {um}
              </text>
            </g>
          ))}
          {ticks(farthest, km_step).map((km) => (
            <text
              key={km}
              x={x(km)}
              y={bottom + 18}
              text-anchor={km === 0 ? 'start' : km === farthest ? 'end' : 'middle'}
              class="trace-word"
            >
              {km === 0 ? '0' : grouped(km)}
            </text>
          ))}
          <path d={`M${edge('high_um').join('L')}L${edge('low_um').reverse().join('L')}Z`} class="road-band" />
          <path d={`M${edge('low_um').join('L')}`} class="road-edge" />
          <path d={`M${edge('high_um').join('L')}`} class="road-edge" />
          <text x="0" y="10" class="trace-word">
            {said.um}
          </text>
          <text x={right} y={bottom + 37} text-anchor="end" class="trace-word">
            {said.km}
          </text>
        </svg>
      </div>
    </Figure>
  );
}
