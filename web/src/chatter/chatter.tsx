import type { CalcOutlookOutput } from '../api/schema';
import { TroubleLine } from '../controls/trouble_line';
import { isCut, partHere, planSettled, useNamedPart } from '../guide/bench';
import { latheFor } from '../plan/plan';
import { ask, place } from '../route/router';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { dialsOf } from '../show/dials';
import { percent } from '../show/length';
import { isDrum } from '../show/part_kind';
import { assessment, jobFile, sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { Chart } from './chart';
import { askedSpeeds } from './chart_geometry';
import './chatter.css';
import { Counted } from './counted';
import { prospectIn } from './depths';
import { RingSource } from './ring';
import { type Cutting, depthFor, figuresOfCut, figuresOfPart } from './scene';
import { depthText, timesText } from './texts';
import { barePercent } from './tones';
import { type Reckoning, useReckoning } from './use_reckoning';
import { Remedies, Why } from './why';

/** Of no job in particular: a disc of a middling car on one of the shop's lathes. */
export function Chatter() {
  const lathes = shop.value?.lathes.filter((one) => one.active) ?? [];
  const lathe = lathes.find((one) => one.id === place.value.query.lathe) ?? lathes[0] ?? null;
  const dials = dialsOf(undefined, lathe);
  const cutting: Cutting = {
    kept: null,
    lathe,
    job: {},
    shop: figuresOfCut(null, lathe, shop.value),
    mark_um: dials.outboard_um,
    depth_mm: depthFor(null, dials, shop.value?.settings.cutting?.finish_max_um),
  };
  return (
    <Screen
      name="chatter"
      title={words.chatter.title}
      next={
        <a class="button main later" href="/">
          {words.shell.board}
        </a>
      }
    >
      <TheCut key={lathe?.id} cutting={cutting}>
        {lathes.length > 1 ? (
          <Choice
            shown
            label={words.chatter.lathe}
            value={lathe?.id ?? ''}
            options={lathes.map((one) => ({ value: one.id, label: one.name }))}
            onChange={(id) => ask({ lathe: id })}
          />
        ) : null}
      </TheCut>
    </Screen>
  );
}

/** Of a job: its disc, its lathe, and the deepest pass of its plan. */
export function ChatterOfJob() {
  const file = jobFile.value;
  const part = file ? partHere(file) : null;
  useNamedPart(part);
  if (!file || !part) return null;
  const { number } = file.job;
  const plan = planSettled(file, part);
  const lathe = latheFor(file, part);
  const dials = dialsOf(assessment.value?.bench, lathe);
  const on = plan && !isCut(file, part, plan) && !sealed.value ? 'cut' : 'plan';
  const cutting: Cutting = {
    kept: part.id,
    lathe,
    job: figuresOfPart(part),
    shop: figuresOfCut(plan, lathe, shop.value),
    mark_um: dials.outboard_um,
    depth_mm: depthFor(plan, dials, shop.value?.settings.cutting?.finish_max_um),
  };
  return (
    <Screen
      name="chatter"
      title={words.chatter.title}
      next={
        <a class="button main" href={`${stepAddress(number, on)}?part=${part.side}`}>
          {on === 'cut' ? words.chatter.to_cut : words.chatter.to_plan}
        </a>
      }
    >
      {isDrum(part) ? <p class="soft">{words.chatter.drum}</p> : <TheCut key={part.id} cutting={cutting} />}
    </Screen>
  );
}

function TheCut({ cutting, children }: { cutting: Cutting; children?: preact.ComponentChildren }) {
  const reckoning = useReckoning(cutting, confidenceHere());
  const { outlook, trouble, refusal, ring, by_size, told, figures, taps, marks, way, speeds } = reckoning;
  const of_marks = way === 'marks' && marks.found !== null;
  return (
    <div class="chatter-body">
      <div class="chatter-column">
        <TroubleLine text={refusal || trouble} />
        {outlook ? <Answer reckoning={reckoning} outlook={outlook} /> : null}
        {outlook || refusal || trouble ? null : <p class="soft">{words.chatter.reckoning}</p>}
      </div>
      <div class="chatter-column">{outlook ? <Depths reckoning={reckoning} outlook={outlook} /> : null}</div>
      <div class="chatter-column">
        {outlook ? <Why outlook={outlook} rpm={speeds.rpm.at(-1) ?? 100} /> : null}
        {outlook && !of_marks ? <Remedies governed_by={outlook.governed_by} /> : null}
        {children}
      </div>
      <div class="chatter-column">
        <RingSource
          hz={ring?.hz ?? null}
          by={ring?.by ?? null}
          tone={taps.picked}
          band_times={reckoning.band_heard}
          speeds={speeds.rpm}
          {...{ way, by_size, told, figures, taps, marks }}
        />
        <Counted
          {...{ told, outlook }}
          heard={{
            damping_percent: ring?.by === 'tap' ? barePercent(ring) : null,
            band_times: ring?.by === 'tap' ? reckoning.band_heard : null,
          }}
        />
      </div>
    </div>
  );
}

const confidenceHere = () => shop.value?.settings.confidence ?? 0.95;

interface Shown {
  reckoning: Reckoning;
  outlook: CalcOutlookOutput;
}

function Answer({ reckoning, outlook }: Shown) {
  const said = words.chatter;
  const { depth_mm, depths, banded, ring } = reckoning;
  const { limit, quiet_mm, sings_mm } = outlook;
  const p = outlook.p_sings[depths.indexOf(depth_mm)] ?? 0;
  const band = ring?.by === 'tap' ? said.limit.band_heard : said.limit.band;
  return (
    <section class="chatter-answer" aria-label={said.limit.title}>
      <p class="chatter-limit figures">{depthText(limit.mm)}</p>
      <p class="chatter-lead">{said.limit.says}</p>
      <p>{band(depthText(limit.low95), depthText(limit.high95))}</p>
      <Choice
        shown
        label={said.band.label}
        value={banded ? 'on' : 'off'}
        options={(['on', 'off'] as const).map((value) => ({ value, label: said.band[value] }))}
        onChange={(value) => ask({ band: value === 'off' ? 'off' : '' })}
      />
      <p>{bandText(outlook)}</p>
      <p class="chatter-today" role="status">
        <span>{said.question(depthText(depth_mm))}</span>{' '}
        <strong>{said.prospect[prospectIn(depth_mm, quiet_mm, sings_mm)]}</strong>{' '}
        <span class="small soft figures">{said.chance(percent(p))}</span>
      </p>
    </section>
  );
}

function Depths({ reckoning, outlook }: Shown) {
  const { depth_mm, depths, speeds, setDepth } = reckoning;
  const { limit, limit_mm, quiet_mm, sings_mm } = outlook;
  const { curve } = askedSpeeds(speeds.rpm);
  return (
    <>
      <Chart
        curve_rpm={curve}
        curve_mm={limit_mm.slice(0, curve.length)}
        edges={[quiet_mm / limit.mm, sings_mm / limit.mm]}
        speeds={speeds.rpm.map((rpm, i) => ({ rpm, mm: limit_mm[curve.length + i] ?? null }))}
        told={speeds.told}
        prospect={prospectIn(depth_mm, quiet_mm, sings_mm)}
        onDepth={setDepth}
        {...{ depths, depth_mm }}
      />
      <p class="small soft">{words.chatter.limit.nothing_safe}</p>
    </>
  );
}

const LEAST_WORTH = 1.05;

function bandText({ worth, bare_mm, banded_mm }: CalcOutlookOutput): string {
  const { band } = words.chatter;
  if (worth < LEAST_WORTH) return band.worth_nothing(depthText(banded_mm));
  return band.worth(timesText(worth), depthText(bare_mm), depthText(banded_mm));
}
