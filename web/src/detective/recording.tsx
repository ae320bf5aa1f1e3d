import { useEffect, useState } from 'preact/hooks';
import { Refused, send } from '../api/client';
import type { CalcPulsationOutput, Job } from '../api/schema';
import { kmPerHour, type SpeedUnit, toldSpeed, typedNumber } from '../arrival/measures';
import { UnitButton } from '../arrival/unit_button';
import { Field } from '../controls/field';
import { FileButton } from '../controls/file_button';
import { troubleOf } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { words } from '../words';
import { orderAt, zonesOf } from './heard';
import { LinesPicture } from './lines_picture';
import type { Taking } from './take_over';
import { base64Of, HEAD_BYTES, kindOf, MOST_BYTES, SENT_BYTES, WAV } from './wav';

const WAIT_MS = 350;
const [LEAST_SPEED, MOST_SPEED] = [5, 300];
/** Of no tyre in particular: only the lines are looked at then. */
const SOME_WHEEL = { rolling_circumference_mm: 2000, u_rolling_percent: 5 };

interface Heard {
  answer: CalcPulsationOutput;
  cut: boolean;
}

/** Why a file is not listened to, in words; empty for one that may be. */
export async function whyNot(file: Blob): Promise<string> {
  const { kinds, too_large } = words.detective.ear;
  const kind = kindOf(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
  if (kind !== 'wav') return kinds[kind];
  return file.size > MOST_BYTES ? too_large(String(Math.round(file.size / 1e6))) : '';
}

async function listen(file: Blob, speed_km_per_h: number, tyre: string | null | undefined): Promise<Heard> {
  const bytes = new Uint8Array(await file.slice(0, SENT_BYTES).arrayBuffer());
  const observations = [{ speed_km_per_h, recording_wav_base64: base64Of(bytes) }];
  const body = { observations, ...(tyre ? { tyre } : SOME_WHEEL) };
  const answer = (await send({ method: 'post', path: '/calc/pulsation', body })) as CalcPulsationOutput;
  return { answer, cut: file.size > SENT_BYTES };
}

/** A phone's recording: what beats in it, and which of it goes into the job. */
export function Recording({ job, taking }: { job: Job; taking: Taking | null }) {
  const { ear } = words.detective;
  const told = toldSpeed(job.felt_speed_km_per_h);
  const [speed, setSpeed] = useState(told?.text ?? '');
  const [unit, setUnit] = useState<SpeedUnit>(told?.unit ?? (job.odometer_unit === 'mi' ? 'mph' : 'km/h'));
  const [file, setFile] = useState<File | null>(null);
  const [heard, setHeard] = useState<Heard | null>(null);
  const [trouble, setTrouble] = useState('');
  const [busy, setBusy] = useState(false);
  const typed = typedNumber(speed);
  const km_per_h = typeof typed === 'number' ? kmPerHour(typed, unit) : null;
  const good = km_per_h !== null && km_per_h >= LEAST_SPEED && km_per_h <= MOST_SPEED;
  useEffect(() => {
    let stale = false;
    setHeard(null);
    setTrouble('');
    setBusy(file !== null && good);
    if (!file || !good || km_per_h === null) return undefined;
    const settle = (found: Heard | null, why: string) => {
      if (stale) return;
      setHeard(found);
      setTrouble(why);
      setBusy(false);
    };
    const work = async () => {
      const refusal = await whyNot(file);
      if (refusal) settle(null, refusal);
      else if (!stale) settle(await listen(file, km_per_h, job.tyre), '');
    };
    const timer = setTimeout(() => {
      work().catch((cause) => settle(null, cause instanceof DOMException ? ear.unread : sayingOf(cause)));
    }, WAIT_MS);
    return () => {
      stale = true;
      clearTimeout(timer);
    };
  }, [file, good ? km_per_h : null, job.tyre]);
  const speed_wrong = speed.trim() === '' ? (file ? ear.speed_first : undefined) : good ? undefined : ear.speed_bad;
  return (
    <section class="tool" aria-label={ear.title}>
      <h2>{ear.title}</h2>
      <p class="small soft">{ear.lead}</p>
      <Field
        label={ear.speed}
        digits
        inputMode="decimal"
        value={speed}
        error={speed_wrong}
        onInput={setSpeed}
        after={<UnitButton label={ear.speed} unit={unit} other={unit === 'mph' ? 'km/h' : 'mph'} onUnit={setUnit} />}
      />
      <FileButton accept={WAV} onFile={setFile}>
        {ear.choose}
      </FileButton>
      {file ? <p class="small file-name">{file.name}</p> : null}
      <div aria-live="polite">{busy ? <p class="soft">{ear.listening}</p> : null}</div>
      <TroubleLine text={trouble} />
      {heard && good ? <Found heard={heard} tyre={Boolean(job.tyre)} speed={km_per_h} taking={taking} /> : null}
    </section>
  );
}

/** A refusal of the recording names what is accepted; one of anything else says so as elsewhere. */
const sayingOf = (cause: unknown) => (cause instanceof Refused ? cause.body.message : troubleOf(cause).message);

interface FoundProps {
  heard: Heard;
  tyre: boolean;
  speed: number | null;
  taking: Taking | null;
}

function Found({ heard, tyre, speed, taking }: FoundProps) {
  const { ear, take_one, per_second, give_or_take } = words.detective;
  const [recording] = heard.answer.recordings;
  if (!recording) return null;
  const seconds = recording.length_s.toFixed(0);
  const zones = tyre ? zonesOf(heard.answer) : [];
  return (
    <>
      <p class="small soft">{heard.cut ? ear.cut(seconds) : ear.heard(seconds)}</p>
      {recording.lines.length === 0 ? <p>{ear.nothing}</p> : null}
      {recording.lines.length > 0 ? <LinesPicture lines={recording.lines} zones={zones} /> : null}
      <ol class="heard-lines">
        {recording.lines.map((line, i) => {
          const order = orderAt(line.hz, zones);
          return (
            <li key={line.hz}>
              <span class="heard-number figures" aria-hidden="true">
                {i + 1}
              </span>
              <span>
                <span class="figures large-figure">{line.hz.toFixed(1)}</span>{' '}
                <span class="figures">{give_or_take((2 * line.u_hz).toFixed(2))}</span> {per_second}
                <span class="small soft heard-about">
                  {zones.length > 0 ? `${order === null ? ear.fits_none : ear.fits(order)} · ` : ''}
                  {ear.over(line.snr_db.toFixed(0))} · {ear.kind[line.kind]}
                </span>
              </span>
              {taking ? (
                <button type="button" disabled={taking.saving.busy} onClick={() => taking.take(line.hz, speed)}>
                  {take_one(line.hz.toFixed(1))}
                </button>
              ) : null}
            </li>
          );
        })}
      </ol>
      <p class="small soft">
        {ear.honest} {ear.chance}
      </p>
    </>
  );
}
