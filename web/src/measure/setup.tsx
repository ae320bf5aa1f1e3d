import { useEffect, useState } from 'preact/hooks';
import { call, Refused } from '../api/client';
import type { Instrument, MeasuringPlan, Part, Stage, Unit } from '../api/schema';
import { Ring } from '../pictures/ring';
import { Choice } from '../shell/choice';
import { length, NM_PER_IN, NM_PER_MM } from '../show/length';
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
      thickness_instrument_id: like.thickness_instrument_id ?? firstOf('micrometer')?.id ?? null,
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
    thickness_instrument_id: firstOf('micrometer')?.id ?? null,
    runout_instrument_id: firstOf('dial_indicator')?.id ?? null,
  };
}

const firstOf = (kind: Instrument['kind']) => instruments.value.find((one) => one.kind === kind) ?? null;

const FROM_EDGE = { mm: [10, 25, 40].map((mm) => mm * NM_PER_MM), in: [0.4, 1, 1.6].map((i) => i * NM_PER_IN) };
const circleDistances = (circles: number, unit: Unit) => FROM_EDGE[unit].slice(0, circles);

const POINTS = ['4', '6', '8', '10', '12', '16', '20', '24'] as const;

/** The plan as it is being made, with what the face will look like beside it. */
export function Setup({ draft, onChange }: { draft: MeasuringPlan; onChange: (draft: MeasuringPlan) => void }) {
  const { setup } = words.measure;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const circles = draft.circles_from_edge_nm.length;
  const change = (some: Partial<MeasuringPlan>) => onChange({ ...draft, ...some });
  const points = POINTS.includes(String(draft.points) as (typeof POINTS)[number])
    ? POINTS
    : [...POINTS, String(draft.points)].sort((a, b) => Number(a) - Number(b));
  const micrometer = instrumentOf(draft.thickness_instrument_id);
  useEffect(() => {
    if (micrometer) askZero(micrometer.id).catch(() => undefined);
  }, [micrometer?.id]);
  return (
    <div class="setup">
      <div class="setup-ring">
        <PlanRing draft={draft} />
        <p class="small soft">{setup.index}</p>
      </div>
      <div class="setup-lines">
        <InstrumentChoice
          label={setup.micrometer}
          kind="micrometer"
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
          onChange={(value) => change({ circles_from_edge_nm: circleDistances(Number(value), unit) })}
        />
        {draft.circles_from_edge_nm.map((nm, i) => (
          <Stepper
            key={i}
            label={circles === 1 ? setup.fromEdge(setup.oneCircle) : setup.fromEdge(words.measure.circle(i, circles))}
            value={nm}
            show={(value) => length(value, { unit, resolution_nm: unit === 'mm' ? NM_PER_MM : NM_PER_IN / 20 })}
            step={unit === 'mm' ? NM_PER_MM : NM_PER_IN / 20}
            least={unit === 'mm' ? 2 * NM_PER_MM : NM_PER_IN / 10}
            most={100 * NM_PER_MM}
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
        <Choice
          shown
          label={setup.runoutPlace}
          value={draft.runout_place}
          options={(['on_car', 'on_arbor'] as const).map((value) => ({ value, label: words.trade.runoutPlace[value] }))}
          onChange={(runout_place) => change({ runout_place })}
        />
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

function PlanRing({ draft }: { draft: MeasuringPlan }) {
  const circles = draft.circles_from_edge_nm.length;
  const points = draft.circles_from_edge_nm.flatMap((_, circle) =>
    Array.from({ length: draft.points }, (_, point) => ({
      circle,
      point,
      angle_deg: angleOfPoint(point, draft.points),
      value_mm: null,
      state: 'empty' as const,
    })),
  );
  return (
    <Ring
      bare
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
