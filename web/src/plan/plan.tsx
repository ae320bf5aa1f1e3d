import { useEffect, useState } from 'preact/hooks';
import { send, signed } from '../api/client';
import { newId } from '../api/ids';
import type { JobFile, Lathe, NewCutPlan, Part } from '../api/schema';
import { Opens } from '../controls/opens';
import { useSaving } from '../controls/saving';
import { isCut, partHere, planSettled, useNamedPart } from '../guide/bench';
import { CornerChoice } from '../guide/corner_choice';
import { type Corners, clockText, cornersOf, cornersText } from '../guide/dials';
import { edgesOf } from '../guide/equipment';
import { facesOf } from '../guide/faces';
import { benchEvents, tick } from '../guide/record';
import { ask, go } from '../route/router';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { type Dials, dialsOf } from '../show/dials';
import { lengthOfMm } from '../show/length';
import { isDrum } from '../show/part_kind';
import { assessment, jobFile, refreshAssessment, refreshJob, sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { type Planning, usePlan } from './advice';
import { DialBasis } from './dial_basis';
import { type ForceBand, forceBands } from './force_band';
import { Layers } from './layers';
import { Missing, wayFor } from './missing';
import { PassCard } from './pass_card';
import { changed, withOneMore, without } from './what_if';
import './plan.css';
import { TroubleLine } from '../controls/trouble_line';
import { typeset } from '../show/typeset';

/** The passes of one rotor, drawn and tried out before they are settled on. */
export function Plan() {
  const file = jobFile.value;
  const part = file ? partHere(file) : null;
  useNamedPart(part);
  return file && part ? <PlanFor key={part.id} file={file} part={part} /> : null;
}

/** The lathe that it is mounted on, else the one that the job was given. */
export function latheFor(file: JobFile, part: Part): Lathe | null {
  const mounted = file.mounts.filter((one) => one.part_id === part.id).at(-1)?.lathe_id;
  return shop.value?.lathes.find((one) => one.id === (mounted ?? file.job.lathe_id)) ?? null;
}

function firstInsert(file: JobFile, part: Part): string {
  const earlier = planSettled(file, part)?.insert_id ?? file.cut_plans.at(-1)?.insert_id;
  return earlier ?? (shop.value ? (edgesOf(shop.value, null)[0]?.insert.id ?? '') : '');
}

function PlanFor({ file, part }: { file: JobFile; part: Part }) {
  const { plan: said } = words;
  const planning = usePlan(file, part, firstInsert(file, part));
  const { computed, passes } = planning;
  const lathe = latheFor(file, part);
  const [corners, setCorners] = useState<Corners>(() => cornersChosen(file, part));
  const settling = useSettling(file, part, lathe, planning, corners);
  const missing = computed?.missing ?? [];
  const refused = computed?.refusal?.error ?? null;
  const ready = passes.length > 0 && missing.length === 0 && lathe !== null && !sealed.value;
  const settled = planSettled(file, part);
  return (
    <Screen
      name="plan"
      title={said.title}
      next={
        ready ? (
          <button type="button" class="main" disabled={settling.saving.busy} onClick={settling.settle}>
            {said.settle}
          </button>
        ) : null
      }
      aside={
        <>
          {planning.changed && computed && computed.passes.length > 0 ? (
            <button type="button" onClick={planning.back}>
              {said.back}
            </button>
          ) : (
            <a class="button" href={`${stepAddress(file.job.number, 'by_hand')}?part=${part.side}`}>
              {words.guide.by_hand}
            </a>
          )}
          {settled && !isCut(file, part, settled) ? (
            <a class="button" href={`${stepAddress(file.job.number, 'cut')}?part=${part.side}`}>
              {said.to_cut}
            </a>
          ) : null}
        </>
      }
    >
      <Which file={file} part={part} />
      {planning.trouble && !computed ? (
        <p class="trouble" role="alert">
          {planning.trouble.message}
        </p>
      ) : null}
      {computed === null && !planning.trouble ? <p class="soft">{said.waiting}</p> : null}
      {missing.length > 0 ? <Missing {...{ file, part, missing }} onKept={() => void planning.read()} /> : null}
      {computed ? <InsertAndEdges {...{ part, planning, corners }} onCorners={setCorners} /> : null}
      {refused && missing.length === 0 ? (
        <section class="plan-refused" aria-label={said.refused}>
          <h2>{said.refused}</h2>
          <p class="trouble">{refused.message}</p>
          <RefusedAt field={refused.field} number={file.job.number} />
          {passes.length === 0 ? (
            <button type="button" onClick={() => planning.change(withOneMore([], lathe, facesOf(part)))}>
              {said.set_by_hand}
            </button>
          ) : null}
        </section>
      ) : null}
      {passes.length > 0 && missing.length === 0 && assessment.value ? <Passes {...{ part, planning, lathe }} /> : null}
      <TroubleLine text={settling.saving.trouble?.message} />
    </Screen>
  );
}

/** The corners that were chosen last for this rotor. */
function cornersChosen(file: JobFile, part: Part): Corners {
  const chosen = benchEvents(file, { part_id: part.id, phase: 'cut' }).filter(
    (one) => one.step === 'corners' || (one.step === 'edges' && one.detail !== ''),
  );
  return cornersOf(chosen.at(-1)?.detail ?? '');
}

function useSettling(file: JobFile, part: Part, lathe: Lathe | null, planning: Planning, corners: Corners) {
  const saving = useSaving();
  const [id] = useState(newId);
  const settle = () => {
    if (!lathe || saving.busy) return;
    void saving.run(async () => {
      const body: NewCutPlan = {
        id,
        part_id: part.id,
        lathe_id: lathe.id,
        insert_id: planning.insert_id || null,
        passes: planning.passes,
      };
      const path = `/jobs/${file.job.id}/cut-plans`;
      await send({ method: 'post', path, query: signed('post', path), body });
      planning.settled();
      const detail = cornersText(corners);
      if (detail) tick({ part_id: part.id, phase: 'cut', step: 'corners', event: 'done', detail });
      await refreshJob();
      await refreshAssessment();
      go(`${stepAddress(file.job.number, 'cut')}?part=${part.side}`);
    });
  };
  return { saving, settle };
}

function Which({ file, part }: { file: JobFile; part: Part }) {
  const { guide, plan } = words;
  if (file.parts.length < 2) return <h2>{guide.rotor[part.side]}</h2>;
  return (
    <Choice
      label={plan.title}
      value={part.side}
      options={file.parts.map((one) => ({ value: one.side, label: guide.rotor[one.side] }))}
      onChange={(side) => ask({ part: side })}
    />
  );
}

function RefusedAt({ field, number }: { field: string; number: number | undefined }) {
  const { refused_at } = words.plan;
  const way = field.startsWith('rules')
    ? { to: '/shop/rules', word: refused_at.rules }
    : wayFor(field.replace(/^needed_um.*/, 'verdict').replace(/^machine_to_mm/, 'limits'), number);
  return way ? (
    <p>
      <a class="button" href={way.to}>
        {way.word}
      </a>
    </p>
  ) : null;
}

interface EdgesProps {
  part: Part;
  planning: Planning;
  corners: Corners;
  onCorners: (corners: Corners) => void;
}

function InsertAndEdges({ part, planning, corners, onCorners }: EdgesProps) {
  const { plan } = words;
  const view = shop.value;
  const inserts = view?.inserts.filter((one) => one.active) ?? [];
  const edges = view ? edgesOf(view, null) : [];
  if (inserts.length === 0) return null;
  const radius = (nm: number) => lengthOfMm(nm / 1e6, { unit: 'mm', resolution_nm: 10_000 });
  return (
    <Opens title={`${plan.insert}: ${inserts.find((one) => one.id === planning.insert_id)?.name ?? plan.insert_none}`}>
      <Choice
        label={plan.insert}
        shown
        value={planning.insert_id}
        options={inserts.map((one) => ({
          value: one.id,
          label: one.name,
          note: ` ${plan.insert_note(radius(one.nose_radius_nm), one.max_speed_m_per_min.toFixed(0))}`,
        }))}
        onChange={planning.chooseInsert}
      />
      {edges.length > 0 ? <CornerChoice faces={facesOf(part)} {...{ edges, corners, onCorners }} /> : null}
    </Opens>
  );
}

/** The band of each tool's force, asked for once the passes stand still. */
function useForceBands(planning: Planning, dials: Dials): (ForceBand | null)[][] {
  const [bands, setBands] = useState<(ForceBand | null)[][]>([]);
  const passes = planning.foreseen?.passes;
  const { outboard_um, inboard_um } = dials;
  const nose_nm = shop.value?.inserts.find((one) => one.id === planning.insert_id)?.nose_radius_nm;
  useEffect(() => {
    let old = false;
    if (!passes || !nose_nm) return undefined;
    const timer = setTimeout(() => {
      forceBands(passes, { outboard_um, inboard_um }, nose_nm / 1e6).then(
        (found) => (old ? undefined : setBands(found)),
        () => (old ? undefined : setBands([])),
      );
    }, STILL_MS);
    return () => {
      old = true;
      clearTimeout(timer);
    };
  }, [passes, nose_nm, outboard_um, inboard_um]);
  return bands;
}

/** Both drums of an axle to one size, unless that is declined. */
function OneSize({ planning }: { planning: Planning }) {
  const { plan } = words;
  const pair_mm = planning.computed?.pair_mm ?? null;
  const how = { unit: shop.value?.settings.default_unit ?? 'mm', resolution_nm: 1000 } as const;
  if (pair_mm === null && !planning.own) return null;
  return (
    <div class="plan-one-size">
      {pair_mm === null ? null : <p>{plan.pair(lengthOfMm(pair_mm, how))}</p>}
      <button type="button" onClick={() => planning.chooseOwn(!planning.own)}>
        {planning.own ? plan.to_pair : plan.own_size}
      </button>
    </div>
  );
}

const STILL_MS = 150;

function Passes({ part, planning, lathe }: { part: Part; planning: Planning; lathe: Lathe | null }) {
  const bench = assessment.value?.bench;
  const dials = dialsOf(bench, lathe);
  const bands = useForceBands(planning, dials);
  const { plan } = words;
  const { passes, foreseen, computed } = planning;
  const how = { unit: shop.value?.settings.default_unit ?? 'mm', resolution_nm: 1000 } as const;
  const um = (value: number) => lengthOfMm(value / 1000, how);
  const current = foreseen && foreseen.passes.length === passes.length ? foreseen : null;
  const general = current?.warnings.filter((one) => one.pass === null || one.pass === undefined) ?? [];
  const discard_nm = part.limits.discard?.value.nm;
  return (
    <div class="plan-body">
      <div class="plan-picture">
        <Layers
          faces={facesOf(part)}
          passes={passes}
          dials={dials}
          final_mm={current?.final_mm ?? null}
          machine_to_mm={computed?.machine_to_mm ?? null}
          discard_mm={discard_nm === undefined ? null : discard_nm / 1e6}
          onMarks={(pass, face, marks) => planning.change(changed(passes, pass, `${face}_marks`, marks))}
        />
        <div class="plan-all" aria-live="polite">
          <p>
            <span class="soft">{plan.all}</span>{' '}
            <span class="plan-figure figures">{current ? clockText(current.time_s) : '–:––'}</span> {plan.min_s}
            {current?.final_mm ? <span class="figures">, {plan.leaves(lengthOfMm(current.final_mm, how))}</span> : null}
          </p>
          {computed?.needed_outboard_um !== null && computed?.needed_outboard_um !== undefined ? (
            <p class="small soft figures">
              {plan.needed(um(computed.needed_outboard_um), um(computed.needed_inboard_um ?? 0))}
            </p>
          ) : null}
          <OneSize planning={planning} />
          {planning.changed ? <p class="doubt">{plan.by_hand}</p> : null}
          {planning.trouble ? <p class="trouble">{planning.trouble.message}</p> : null}
          {planning.changed && foreseen?.refusal ? <p class="trouble">{foreseen.refusal.error.message}</p> : null}
          {general.map((one) => (
            <p class="trouble" key={one.code}>
              {typeset(one.text)}
            </p>
          ))}
          <DialBasis {...{ part, bench, lathe }} unit={how.unit} />
          {current && current.warnings.length === 0 ? <p>{plan.keeps_rules}</p> : null}
        </div>
        {isDrum(part) ? null : (
          <p>
            <a class="button" href={`${stepAddress(jobFile.value?.job.number, 'chatter')}?part=${part.side}`}>
              {words.chatter.title}
            </a>
          </p>
        )}
        <Opens title={plan.how}>
          <ul class="small">
            {plan.sources.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </Opens>
      </div>
      <div class="plan-passes">
        {passes.map((pass, i) => (
          <PassCard
            key={i}
            faces={facesOf(part)}
            at={i}
            count={passes.length}
            pass={pass}
            foreseen={current?.passes[i] ?? null}
            bands={bands[i] ?? []}
            warnings={current?.warnings.filter((one) => one.pass === i + 1) ?? []}
            lathe={lathe}
            dials={dials}
            confidence={shop.value?.settings.confidence ?? 0.95}
            onChange={(setting, value) => planning.change(changed(passes, i, setting, value))}
            onRemove={passes.length > 1 ? () => planning.change(without(passes, i)) : null}
          />
        ))}
        <button type="button" onClick={() => planning.change(withOneMore(passes, lathe, facesOf(part)))}>
          {plan.add}
        </button>
      </div>
    </div>
  );
}
