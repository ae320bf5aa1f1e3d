import { useState } from 'preact/hooks';
import { Trace } from '../pictures/trace';
import { Choice } from '../shell/choice';
import { words } from '../words';
import { SIDES, type Side } from './model';
import { micrometres, whole } from './numbers';
import { closes, peakToValley, runoutsOf } from './readings';
import { RefusedLine } from './refused_line';
import type { AtBench } from './use_run';

const POINTS = 12;
const SHOWN = 3;
const MICROMETRE = { unit: 'mm', resolution_nm: 1000 } as const;

/** How the part runs on the arbor: one slow turn by hand. */
export function Proof({ at }: { at: AtBench }) {
  const { proof: said, side: sides, um } = words.practice_bench;
  const { bench, acts } = at.run;
  const [side, setSide] = useState<Side>('outboard');
  const runouts = runoutsOf(acts);
  const last = runouts.at(-1);
  const radius_mm = Math.round((bench.make.band_inner_radius_mm + bench.make.band_outer_radius_mm) / 2);
  return (
    <section class="bench-proof" aria-label={said.title}>
      <h2>{said.title}</h2>
      <p class="soft">{bench.make.seat.kind === 'hubbed' ? said.lead_hub : said.lead}</p>
      <Choice
        shown
        label={said.side}
        value={side}
        options={SIDES.map((value) => ({ value, label: sides[value] }))}
        onChange={setSide}
      />
      <button type="button" onClick={() => at.act({ do: 'read_runout', side, radius_mm, points: POINTS })}>
        {said.read}
      </button>
      <RefusedLine at={at} of={['read_runout']} />
      <div aria-live="polite">
        {last ? (
          <p class="bench-runout">
            <span class="bench-figure figures">{micrometres(peakToValley(last))}</span>{' '}
            <span class="bench-unit">{um}</span> <span class="soft">{said.pv}</span>
          </p>
        ) : (
          <p class="soft">{said.none}</p>
        )}
        {last ? <p class="small soft">{said.closes(micrometres(closes(last)))}</p> : null}
      </div>
      {last ? (
        <Trace
          name={said.trace}
          how={MICROMETRE}
          series={runouts.slice(-SHOWN).map((one) => ({
            name: said.series(one.mounting, sides[one.side], whole(one.radius_mm)),
            points: one.points.slice(0, -1).map(({ angle_deg, um: value }) => ({ angle_deg, value_mm: value / 1000 })),
          }))}
        />
      ) : null}
    </section>
  );
}
