import { Figure } from '../pictures/figure';
import { wearRange, wearText } from '../show/wear';
import { words } from '../words';
import type { RoadPart } from './rows';

type Wear = RoadPart['wear'][number];

/** How long until discard, uncut and cut, each as a range with the rate that it rests on. */
export function WearRoom({ part }: { part: RoadPart }) {
  const { road } = words;
  const known = part.wear.filter((wear) => wear.uncut || wear.cut);
  if (known.length === 0) return null;
  return (
    <section class="road-block" aria-label={road.wear.title}>
      <h2>{road.wear.title}</h2>
      {known.map((wear) => (
        <OneRate key={wear.source} wear={wear} />
      ))}
    </section>
  );
}

function OneRate({ wear }: { wear: Wear }) {
  const { road } = words;
  const rows = (
    [
      ['uncut', wear.uncut],
      ['cut', wear.cut],
    ] as const
  ).flatMap(([which, room]) => (room ? [{ which, room }] : []));
  const most = Math.max(...rows.map(({ room }) => room.high95), 1e-9);
  return (
    <div class="wear">
      <Figure
        name={road.wear.name}
        kind="wear"
        says={rows.map(({ which, room }) => road.wear.sentence(road.wear[which], wearRange(room))).join(' ')}
        table={{
          head: [...road.wear.head],
          rows: rows.map(({ which, room }) => [
            road.wear[which],
            ...[room.low95, room.median, room.high95].map((value) => wearText(value, room.unit)),
          ]),
        }}
      >
        <div aria-hidden="true">
          {rows.map(({ which, room }) => (
            <div key={which} class="wear-row">
              <span>{road.wear[which]}</span>
              <span class="figures road-figure">{wearRange(room)}</span>
              <span class="small soft figures">{road.wear.half(wearText(room.median, room.unit))}</span>
              <span class="wear-track">
                <span
                  class="wear-range"
                  style={{
                    left: `${(100 * room.low95) / most}%`,
                    width: `${(100 * (room.high95 - room.low95)) / most}%`,
                  }}
                />
                <span class="heat-middle" style={{ left: `${(100 * room.median) / most}%` }} />
              </span>
            </div>
          ))}
        </div>
      </Figure>
      <p class="small soft">
        <span class="figures">{road.wear.rate(wear.mm_per_10000_km.toFixed(2))}</span> · {words.shell.source}:{' '}
        {wear.source}
      </p>
    </div>
  );
}
