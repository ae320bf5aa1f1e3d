import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { JobFile, Part, RoadAdvice } from '../api/schema';
import { Opens } from '../controls/opens';
import { TroubleLine } from '../controls/trouble_line';
import type { OrderRow } from '../pictures/order_axes';
import { Orders } from '../pictures/orders';
import { place } from '../route/router';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { stepAddress, stepFor } from '../shell/step_path';
import { isDrum } from '../show/part_kind';
import { typeset } from '../show/typeset';
import { useAnswer } from '../state/answer';
import { assessment, jobFile, sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { Growth } from './growth';
import { OneStop } from './heat';
import { Missing } from './missing';
import { Repeats } from './repeats';
import './road.css';
import type { RoadPart } from './rows';
import { StopSettings } from './stop_settings';
import { type Picture, wantedFor } from './ways';
import { WearRoom } from './wear';
import { queryOf } from './wish';

/** What the cut changes on the road, part by part: pictures of ranges, none of them a promise. */
export function Road() {
  const file = jobFile.value;
  return file ? <OnTheRoad key={file.job.id} file={file} /> : null;
}

function OnTheRoad({ file }: { file: JobFile }) {
  const { road } = words;
  const { number, id } = file.job;
  const query = queryOf(place.value.query);
  const { answer, trouble } = useAnswer(
    () => call('get', '/jobs/{job_id}/road', { path: { job_id: id }, query }),
    [file, JSON.stringify(query), shop.value?.settings],
  );
  const waits_for = assessment.value?.waits_for ?? 'limits';
  return (
    <Screen
      name="road"
      title={road.title}
      next={
        <a class="button main" href={stepAddress(number, sealed.value ? 'record' : stepFor(waits_for))}>
          {sealed.value ? road.to_record : road.to_job}
        </a>
      }
      aside={
        sealed.value ? null : (
          <a class="button" href={stepAddress(number, 'record')}>
            {road.to_record}
          </a>
        )
      }
    >
      <p class="soft">{road.no_promise}</p>
      <TroubleLine text={trouble?.message} />
      {answer ? <Answer advice={answer} file={file} /> : <p class="soft">{trouble ? '' : road.waiting}</p>}
    </Screen>
  );
}

function Answer({ advice, file }: { advice: RoadAdvice; file: JobFile }) {
  const { road } = words;
  const [chosen, setChosen] = useState(file.parts[0]?.id ?? '');
  const part = file.parts.find((one) => one.id === chosen) ?? file.parts[0];
  const found = advice.parts.find((one) => one.part_id === part?.id);
  if (!part || !found) return null;
  return (
    <>
      {file.parts.length > 1 ? (
        <Choice
          label={road.part}
          value={part.id}
          options={file.parts.map((one) => ({ value: one.id, label: words.trade.side[one.side] }))}
          onChange={setChosen}
        />
      ) : null}
      <StopSettings advice={advice} part={part} />
      <Blocks advice={advice} found={found} file={file} part={part} />
      {[...found.advice, ...advice.advice].map((one) => (
        <p key={one.code + one.text} class="small soft">
          {typeset(one.text)}
        </p>
      ))}
      <Sources advice={advice} found={found} part={part} />
    </>
  );
}

/** Where the figures come from that are shown of this part. */
function Sources({ advice, found, part }: Omit<BlocksProps, 'file'>) {
  const stopped = isDrum(part) ? [] : [advice.stop.heat_share_source, advice.stop.material_source];
  const discs = [found.heat_before, found.heat_after].flatMap((disc) => (disc ? [typeset(disc.basis)] : []));
  const lines = [...stopped, ...new Set(discs), ...(advice.wheel ? [advice.wheel.source] : [])];
  if (lines.length === 0) return null;
  return (
    <Opens title={words.road.sources}>
      {lines.map((line) => (
        <p key={line} class="small">
          {line}
        </p>
      ))}
    </Opens>
  );
}

interface BlocksProps {
  advice: RoadAdvice;
  found: RoadPart;
  file: JobFile;
  part: Part;
}

function Blocks({ advice, found, file, part }: BlocksProps) {
  const { road } = words;
  const how = { unit: shop.value?.settings.default_unit ?? 'mm', resolution_nm: 10_000 };
  const missing = [...advice.missing, ...found.missing];
  const wanted = (picture: Picture) => (
    <Missing
      fields={missing.filter((field) => wantedFor(field) === picture)}
      picture={picture}
      file={file}
      part={part}
      open={!sealed.value}
    />
  );
  const { wheel } = advice;
  return (
    <div class="road-blocks">
      <div class="road-two">
        <OneStop part={found} stop={advice.stop} how={how} />
        {wanted('heat')}
        <Repeats part={found} stop={advice.stop} />
      </div>
      <div class="road-two">
        <WearRoom part={found} />
        {wanted('wear')}
        {advice.felt.length > 0 ? (
          <section class="road-block" aria-label={road.felt.title}>
            <h2>{road.felt.title}</h2>
            <p class="soft">{road.felt.lead}</p>
            <Orders name={road.felt.name} table={rowsOf(advice.felt)} height={300} />
            {wheel ? (
              <p class="small soft">{road.felt.turn(wheel.low_m.toFixed(2), wheel.high_m.toFixed(2), wheel.tyre)}</p>
            ) : null}
          </section>
        ) : null}
        {wanted('felt')}
        <Growth part={found} />
        {wanted('growth')}
      </div>
    </div>
  );
}

/** The shop's table by speed, as the picture of wheel orders takes it. */
const rowsOf = (felt: RoadAdvice['felt']): OrderRow[] =>
  felt.flatMap(({ speed_km_per_h, orders }) => orders.map((one) => ({ speed_km_per_h, ...one })));
