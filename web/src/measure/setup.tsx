import { useEffect, useState } from 'preact/hooks';
import { call, Refused } from '../api/client';
import type { Instrument, MeasuringPlan, Part, Stage, Unit } from '../api/schema';
import { DrumSection } from '../pictures/drum_section';
import { Ring } from '../pictures/ring';
import { Choice } from '../shell/choice';
import { length, NM_PER_IN, NM_PER_MM } from '../show/length';
import { isDrum } from '../show/part_kind';
import { jobFile, planOf, refreshJob } from '../state/job';
import { instrumentOf, instruments, shop } from '../state/shop';
import { words } from '../words';
import { angleOfPoint, isOnCar } from './slots';
import { Stepper } from './stepper';
import { askZero, checkedToday, ZeroCheckField } from './zero_check';

/** The shop gives a rotor a plan when it comes; nobody has yet said with what it is gone round. */
export const isProposal = (plan: MeasuringPlan): boolean =>
  (plan.version ?? 1) <= 1 && !plan.thickness_instrument_id && !plan.runout_instrument_id;

/** How a rotor is gone round: from the plan there is, from that of the other rotor or stage, or from the shop's own. */
export function firstPlan(part: Part, stage: Stage): MeasuringPlan {
  const own = planOf(part, stage);
  const plans = (jobFile.value?.plans ?? []).filter((plan) => !isProposal(plan));
  const like =
    (own && !isProposal(own) ? own : null) ??
    plans.find((plan) => plan.part_id === part.id) ??
    plans.find((plan) => plan.stage === stage) ??
    plans[0] ??
    own;
  if (like) {
    const { version: _, ...rest } = like;
    const onCar = isOnCar(stage);
    const place = stage === 'after' && like !== own ? 'on_arbor' : like.runout_place;
    return {
      ...rest,
      part_id: part.id,
      stage,
      circles_from_edge_nm: onCar ? like.circles_from_edge_nm.slice(0, 1) : like.circles_from_edge_nm,
      part_temperature_c: onCar ? null : (like.part_temperature_c ?? null),
      runout_place: onCar ? 'on_car' : place,
      thickness_instrument_id: like.thickness_instrument_id ?? firstOf(sizeGauge(part))?.id ?? null,
      runout_instrument_id: like.runout_instrument_id ?? firstOf('dial_indicator')?.id ?? null,
      ...(own?.version ? { version: own.version } : {}),
    };
  }
  const settings = shop.value?.settings;
  return {
    part_id: part.id,
    stage,
    points: settings?.points ?? 8,
    turning: 'clockwise',
    circles_from_edge_nm: circleDistances(1, settings?.default_unit ?? 'mm'),
    runout_place: stage === 'after' ? 'on_arbor' : 'on_car',
    part_temperature_c: null,
    thickness_instrument_id: firstOf(sizeGauge(part))?.id ?? null,
    runout_instrument_id: firstOf('dial_indicator')?.id ?? null,
  };
}

/** What its size is read with. */
const sizeGauge = (part: Part | null): Instrument['kind'] => (isDrum(part) ? 'drum_gauge' : 'micrometer');

const firstOf = (kind: Instrument['kind']) => instruments.value.find((one) => one.kind === kind) ?? null;

const FROM_EDGE = { mm: [10, 25, 40].map((mm) => mm * NM_PER_MM), in: [0.4, 1, 1.6].map((i) => i * NM_PER_IN) };
const circleDistances = (circles: number, unit: Unit) => FROM_EDGE[unit].slice(0, circles);

/** Open edge, closed edge and half way between, from those that stand: one depth alone is the open edge. */
export function depthsOf(depths: number, now: readonly number[], unit: Unit): number[] {
  const open = Math.min(...now);
  const usual = open + 3 * (unit === 'mm' ? 10 * NM_PER_MM : 0.4 * NM_PER_IN);
  const closed = now.length > 1 ? Math.max(...now) : usual;
  const step = unit === 'mm' ? NM_PER_MM : NM_PER_IN / 20;
  const middle = Math.round((open + closed) / 2 / step) * step;
  return depths === 1 ? [open] : depths === 2 ? [open, closed] : [open, middle, closed];
}

const POINTS: readonly string[] = ['4', '6', '8', '10', '12', '16', '20', '24'];
/** Over half a turn. */
const DIAMETERS: readonly string[] = ['4', '6', '8', '12'];

/** The plan as it is being made, with what the face will look like beside it. */
interface SetupProps {
  part: Part;
  draft: MeasuringPlan;
  onChange: (draft: MeasuringPlan) => void;
}

export function Setup({ part, draft, onChange }: SetupProps) {
  const { setup } = words.measure;
  const drum = isDrum(part) && !isOnCar(draft.stage);
  const offered = drum ? DIAMETERS : POINTS;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const circles = draft.circles_from_edge_nm.length;
  const change = (some: Partial<MeasuringPlan>) => onChange({ ...draft, ...some });
  const points = [...new Set([...offered, String(draft.points)])].sort((a, b) => Number(a) - Number(b));
  const micrometer = instrumentOf(draft.thickness_instrument_id);
  useEffect(() => {
    if (micrometer) askZero(micrometer.id).catch(() => undefined);
  }, [micrometer?.id]);
  return (
    <div class="setup">
      <div class="setup-ring">
        <PlanRing draft={draft} drum={drum} />
        {drum ? <Depths part={part} draft={draft} /> : null}
        <p class="small soft">{setup.index}</p>
      </div>
      <div class="setup-lines">
        <InstrumentChoice
          label={setup.micrometer}
          kind={sizeGauge(part)}
          value={draft.thickness_instrument_id ?? null}
          onChange={(thickness_instrument_id) => change({ thickness_instrument_id })}
        />
        {micrometer && <ZeroCheckField key={micrometer.id} instrument={micrometer} />}
        <Choice
          shown
          label={setup.points}
          value={String(draft.points)}
          options={points.map((value) => ({ value, label: value }))}
          onChange={(value) => change({ points: Number(value) })}
        />
        <Choice
          shown
          label={setup.circles}
          value={String(circles)}
          options={['1', '2', '3'].map((value) => ({ value, label: value }))}
          onChange={(value) =>
            change({
              circles_from_edge_nm: drum
                ? depthsOf(Number(value), draft.circles_from_edge_nm, unit)
                : circleDistances(Number(value), unit),
            })
          }
        />
        {draft.circles_from_edge_nm.map((nm, i) => (
          <Stepper
            key={i}
            label={circles === 1 ? setup.fromEdge(setup.oneCircle) : setup.fromEdge(words.measure.circle(i, circles))}
            value={nm}
            show={(value) => length(value, { unit, resolution_nm: unit === 'mm' ? NM_PER_MM : NM_PER_IN / 20 })}
            step={unit === 'mm' ? NM_PER_MM : NM_PER_IN / 20}
            least={unit === 'mm' ? 2 * NM_PER_MM : NM_PER_IN / 10}
            most={(drum ? 400 : 100) * NM_PER_MM}
            onChange={(value) =>
              change({ circles_from_edge_nm: draft.circles_from_edge_nm.map((old, k) => (k === i ? value : old)) })
            }
          />
        ))}
        <Choice
          shown
          label={setup.turning}
          value={draft.turning}
          options={(['clockwise', 'anticlockwise'] as const).map((value) => ({
            value,
            label: words.trade.turning[value],
          }))}
          onChange={(turning) => change({ turning })}
        />
        <Stepper
          label={setup.temperature}
          value={draft.part_temperature_c ?? 20}
          show={(c) => (draft.part_temperature_c == null ? setup.temperatureUnread : setup.degrees(c))}
          step={1}
          least={-20}
          most={150}
          onChange={(c) => change({ part_temperature_c: c })}
        />
        {drum ? null : (
          <Choice
            shown
            label={setup.runoutPlace}
            value={draft.runout_place}
            options={(['on_car', 'on_arbor'] as const).map((value) => ({
              value,
              label: words.trade.runoutPlace[value],
            }))}
            onChange={(runout_place) => change({ runout_place })}
          />
        )}
        <InstrumentChoice
          label={setup.indicator}
          kind="dial_indicator"
          value={draft.runout_instrument_id ?? null}
          onChange={(runout_instrument_id) => change({ runout_instrument_id })}
        />
      </div>
    </div>
  );
}

interface InstrumentChoiceProps {
  label: string;
  kind: Instrument['kind'];
  value: string | null;
  onChange: (id: string | null) => void;
}

export function InstrumentChoice({ label, kind, value, onChange }: InstrumentChoiceProps) {
  const fits = instruments.value.filter((one) => one.kind === kind || one.id === value);
  return (
    <Choice
      shown
      label={label}
      value={value ?? ''}
      options={[
        ...fits.map((one) => ({
          value: one.id,
          label: one.name,
          note: length(one.resolution_nm, { unit: one.default_unit, resolution_nm: one.resolution_nm }),
        })),
        { value: '', label: words.measure.setup.noInstrument },
      ]}
      onChange={(id) => onChange(id || null)}
    />
  );
}

/** Where along the band the gauge is held. */
function Depths({ part, draft }: { part: Part; draft: MeasuringPlan }) {
  const unit = shop.value?.settings.default_unit ?? 'mm';
  return (
    <DrumSection
      depths_mm={draft.circles_from_edge_nm.map((nm) => nm / NM_PER_MM)}
      band_mm={part.band_width?.nm ? part.band_width.nm / NM_PER_MM : null}
      active={0}
      how={{ unit, resolution_nm: unit === 'mm' ? NM_PER_MM : NM_PER_IN / 20 }}
    />
  );
}

function PlanRing({ draft, drum }: { draft: MeasuringPlan; drum: boolean }) {
  const circles = draft.circles_from_edge_nm.length;
  const points = draft.circles_from_edge_nm.flatMap((_, circle) =>
    Array.from({ length: draft.points }, (_, point) => ({
      circle,
      point,
      angle_deg: angleOfPoint(point, { points: draft.points, over_deg: drum ? 180 : 360 }),
      value_mm: null,
      state: 'empty' as const,
    })),
  );
  return (
    <Ring
      bare
      across={drum}
      name={words.measure.setup.title}
      points={points}
      circles={circles}
      turning={draft.turning}
      meaning={words.measure.ring.thickness}
      middle_mm={null}
      span_mm={0}
      how={{ unit: 'mm', resolution_nm: 1000 }}
      active={{ circle: 0, point: 0 }}
    />
  );
}

/** The draft with its keeping: what the screen and the drawer share. */
export function useDraft(part: Part, stage: Stage, onKept: () => void) {
  const [draft, setDraft] = useState(() => firstPlan(part, stage));
  const [trouble, setTrouble] = useState('');
  const keep = async () => {
    setTrouble('');
    try {
      await call('put', '/jobs/{job_id}/parts/{part_id}/plans/{stage}', {
        path: { job_id: jobFile.value?.job.id ?? '', part_id: part.id, stage },
        body: draft,
      });
      await refreshJob();
      onKept();
    } catch (cause) {
      if (cause instanceof Refused && cause.body.code === 'changed_meanwhile') {
        await refreshJob();
        setDraft(firstPlan(part, stage));
        setTrouble(words.measure.setup.changed);
      } else setTrouble(cause instanceof Error ? cause.message : String(cause));
    }
  };
  const micrometer = instrumentOf(draft.thickness_instrument_id);
  return { draft, setDraft, trouble, keep, ready: checkedToday(micrometer) || !micrometer };
}
