import type { JobFile, Part } from '../api/schema';
import { LengthField } from '../controls/length_field';
import { wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { InstrumentChoice } from '../measure/setup';
import { Stepper } from '../measure/stepper';
import { HubPicture } from '../pictures/hub';
import { Choice } from '../shell/choice';
import { Drawer } from '../shell/drawer';
import { Screen } from '../shell/screen';
import { length, NM_PER_IN, NM_PER_MM } from '../show/length';
import { shop } from '../state/shop';
import { words } from '../words';
import { type CarSetupDraft, useCarSetup } from './setup_draft';
import { LENGTHS, type LengthName } from './setup_fields';
import { StudsChoice } from './studs';

const POINTS = ['4', '6', '8', '12', '16'] as const;

interface Props {
  file: JobFile;
  part: Part;
}

/** Before the first reading on the car. */
export function FirstCarSetup({ file, part, sides }: Props & { sides: preact.ComponentChildren }) {
  const draft = useCarSetup(file, part, () => undefined);
  const { car } = words;
  const known = draft.studs !== null;
  return (
    <Screen
      name="car-setup"
      title={car.setup.title}
      next={
        <button type="button" class="main" disabled={!known || draft.saving.busy} onClick={() => void draft.save()}>
          {known ? car.setup.begin : car.setup.studs_needed}
        </button>
      }
    >
      {sides}
      <p class="soft">{car.why}</p>
      <CarSetup draft={draft} />
    </Screen>
  );
}

export function ChangeCarSetup({ file, part, onClose }: Props & { onClose: () => void }) {
  const draft = useCarSetup(file, part, onClose);
  const { setup } = words.car;
  const close = () => {
    draft.letGo();
    onClose();
  };
  return (
    <Drawer title={setup.title} onClose={close}>
      <CarSetup draft={draft} />
      <div class="drawer-end">
        <button type="button" class="main" disabled={draft.saving.busy} onClick={() => void draft.save()}>
          {setup.save}
        </button>
      </div>
    </Drawer>
  );
}

function CarSetup({ draft }: { draft: CarSetupDraft }) {
  const { setup } = words.car;
  const { plan, changePlan: change, studs, setStuds, saving } = draft;
  const points = String(plan.points);
  const offered = (POINTS as readonly string[]).includes(points) ? POINTS : [...POINTS, points];
  return (
    <>
      <TroubleLine text={wrongElsewhere(saving.trouble, LENGTHS)} />
      <div class="setup">
        <div class="setup-ring">
          <HubPicture
            name={setup.picture}
            says={setup.says(studs ?? 0)}
            studs={studs ?? 5}
            turning={plan.turning}
            {...(studs === null ? {} : { numbers: Array.from({ length: studs }, (_, i) => String(i + 1)) })}
          />
          <p class="small soft">{setup.lead}</p>
        </div>
        <div class="setup-lines">
          <StudsChoice value={studs} onChange={setStuds} />
          <div>
            <Choice
              shown
              label={setup.points}
              value={points}
              options={offered.map((value) => ({ value, label: value }))}
              onChange={(value) => change({ points: Number(value) })}
            />
            {plan.points === 4 ? <p class="small soft">{setup.four}</p> : null}
          </div>
          <Choice
            shown
            label={words.measure.setup.turning}
            value={plan.turning}
            options={(['clockwise', 'anticlockwise'] as const).map((value) => ({
              value,
              label: words.trade.turning[value],
            }))}
            onChange={(turning) => change({ turning })}
          />
          <Circle draft={draft} />
          <Lengths draft={draft} />
          <InstrumentChoice
            label={words.measure.setup.indicator}
            kind="dial_indicator"
            value={plan.runout_instrument_id ?? null}
            onChange={(runout_instrument_id) => change({ runout_instrument_id })}
          />
        </div>
      </div>
    </>
  );
}

/** Where on the face the indicator stands. */
function Circle({ draft: { plan, changePlan } }: { draft: CarSetupDraft }) {
  const { setup } = words.measure;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const step = unit === 'mm' ? NM_PER_MM : NM_PER_IN / 20;
  return (
    <Stepper
      label={setup.fromEdge(setup.oneCircle)}
      value={plan.circles_from_edge_nm[0] ?? 10 * NM_PER_MM}
      show={(value) => length(value, { unit, resolution_nm: step })}
      step={step}
      least={2 * step}
      most={100 * NM_PER_MM}
      onChange={(value) => changePlan({ circles_from_edge_nm: [value] })}
    />
  );
}

function Lengths({ draft: { length: lengthOf, changeLength, saving } }: { draft: CarSetupDraft }) {
  const { setup } = words.car;
  const asked: Record<LengthName, { label: string; note?: string }> = {
    outer_diameter: { label: words.mount.seat.names.outer_diameter },
    hub_reading_diameter: { label: setup.hub_diameter, note: setup.hub_diameter_note },
  };
  return (
    <>
      {(['outer_diameter', 'hub_reading_diameter'] as const).map((name) => (
        <LengthField
          key={name}
          {...asked[name]}
          value={lengthOf(name).text}
          unit={lengthOf(name).unit}
          error={wrongWith(saving.trouble, name)}
          onInput={(text) => changeLength(name, { text })}
          onUnit={(unit) => changeLength(name, { unit })}
        />
      ))}
    </>
  );
}
