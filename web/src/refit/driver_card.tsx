import type { JobFile } from '../api/schema';
import { shop } from '../state/shop';
import { words } from '../words';

/** What the driver takes along: how the brakes are bedded in, and that the nuts want drawing up again. */
export function DriverCard({ file }: { file: JobFile }) {
  const { card } = words.refit;
  const { vehicle, axle, number } = file.job;
  return (
    <>
      <section class="driver-card" aria-label={card.title}>
        <p class="soft">{[shop.value?.settings.shop_name, card.job(number ?? 0)].filter(Boolean).join(' · ')}</p>
        <h2>{card.title}</h2>
        <p>{card.vehicle(vehicle, words.trade.axle[axle])}</p>
        <p>{card.why}</p>
        <ol>
          {card.lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ol>
        <p>
          <strong>{card.nuts}</strong>
        </p>
        <p class="small soft">{card.source}</p>
      </section>
      <button type="button" class="card-print" onClick={() => window.print()}>
        {card.print}
      </button>
    </>
  );
}
