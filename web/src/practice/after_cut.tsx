import { useState } from 'preact/hooks';
import { TroubleLine } from '../controls/trouble_line';
import { HubPicture } from '../pictures/hub';
import { Choice } from '../shell/choice';
import { useKept } from '../state/kept';
import { words } from '../words';
import { Measuring, type MeasuringProps } from './measuring';
import { micrometres, whole } from './numbers';
import { isWashed, refitRunout } from './readings';
import { RefusedLine } from './refused_line';
import type { AtBench } from './use_run';

/** Measure again, back on the hub, and hand over. */
export function AfterCut(props: MeasuringProps) {
  const { after: said } = words.practice_bench;
  const { view } = props.at.run;
  return (
    <div class="bench-after">
      {view.mounted.length > 0 ? (
        <p class="row doubt">
          <span>{said.off_first}</span>
          <button type="button" onClick={() => props.at.act({ do: 'unmount' })}>
            {words.practice_bench.mount.unmount}
          </button>
        </p>
      ) : null}
      <RefusedLine at={props.at} of={['unmount', 'finish']} />
      {view.refitted ? <p class="soft">{said.on_hub}</p> : <Measuring {...props} after />}
      <Washing at={props.at} />
      <Refitting at={props.at} />
    </div>
  );
}

/** After the last cut, with the part off the lathe. */
function Washing({ at }: { at: AtBench }) {
  const { after: said } = words.practice_bench;
  return (
    <section class="bench-thing" aria-label={said.wash_title}>
      <h2>{said.wash_title}</h2>
      <p class="soft">{said.wash_lead}</p>
      <div class="row">
        <button type="button" onClick={() => at.act({ do: 'wash' })}>
          {said.wash}
        </button>
        <span role="status">{isWashed(at.run.acts) ? said.washed : ''}</span>
      </div>
      <RefusedLine at={at} of={['wash']} />
    </section>
  );
}

/** How the part is to go on the car; nothing is chosen for the hand. */
interface Refit {
  position: number;
  clean: 'yes' | 'no' | '';
  nuts: 'star' | 'round' | '';
}

function Refitting({ at }: { at: AtBench }) {
  const { after: said } = words.practice_bench;
  const { id, bench, view } = at.run;
  const { stud_positions_deg: studs } = bench;
  const { draft, change } = useKept<Refit>(`bench_refit.${id}`, () => ({ position: 0, clean: '', nuts: '' }));
  const { position, clean, nuts } = draft;
  const [tried, setTried] = useState(false);
  const own_hub = bench.make.seat.kind === 'hubbed';
  const hub = said.hub(micrometres(bench.hub_runout_um), whole(bench.hub_high_deg));
  const cleaned = own_hub ? said.own_hub : said;
  const open = [...(clean === '' ? [cleaned.cleaned] : []), ...(nuts === '' ? [said.nuts] : [])];
  const put = () => {
    setTried(open.length > 0);
    if (open.length > 0) return;
    at.act({ do: 'refit', position, hub_cleaned: clean === 'yes', nuts_in_star: nuts === 'star' });
  };
  return (
    <section class="bench-two bench-refit" aria-label={said.refit}>
      <div class="bench-thing">
        <h2>{said.refit}</h2>
        <p class="soft">{own_hub ? said.own_hub.lead : said.lead}</p>
        {own_hub ? null : (
          <>
            <p>{hub}</p>
            <Choice
              shown
              label={said.stud}
              value={String(position)}
              options={studs.map((deg, i) => ({ value: String(i), label: said.stud_name(i, whole(deg)) }))}
              onChange={(value) => change({ position: Number(value) })}
            />
          </>
        )}
        <Choice
          shown
          label={cleaned.cleaned}
          value={clean}
          options={(['yes', 'no'] as const).map((value) => ({ value, label: cleaned.clean[value] }))}
          onChange={(value) => change({ clean: value })}
        />
        <Choice
          shown
          label={said.nuts}
          value={nuts}
          options={(['star', 'round'] as const).map((value) => ({ value, label: said.nuts_drawn[value] }))}
          onChange={(value) => change({ nuts: value })}
        />
        <p class="small soft">{said.nuts_caution}</p>
        <button type="button" onClick={put}>
          {view.refitted ? cleaned.again : said.put}
        </button>
        <TroubleLine text={tried && open.length > 0 ? said.choose_first(open) : null} />
        <RefusedLine at={at} of={['refit']} />
        <OnCar at={at} />
      </div>
      {own_hub ? null : <HubBeside studs={studs} position={position} says={hub} />}
    </section>
  );
}

interface HubProps {
  studs: readonly number[];
  position: number;
  says: string;
}

function HubBeside({ studs, position, says }: HubProps) {
  return (
    <div class="bench-beside">
      <HubPicture
        name={words.practice_bench.after.studs}
        says={says}
        studs={Math.max(1, studs.length)}
        turning="clockwise"
        turned={position}
        numbers={studs.map((_, i) => String(i))}
        lit={[position]}
      />
    </div>
  );
}

/** What is left of the runout, as long as the part is on the car. */
function OnCar({ at }: { at: AtBench }) {
  const { after: said } = words.practice_bench;
  const { view, acts } = at.run;
  const runout = refitRunout(acts);
  if (runout === null) return null;
  if (!view.refitted) return <p role="status">{said.off_car}</p>;
  return (
    <p class="bench-runout" role="status">
      <span class="soft">{said.on_car}</span> <span class="bench-figure figures">{micrometres(runout)}</span>{' '}
      <span class="bench-unit">{words.practice_bench.um}</span>
    </p>
  );
}
