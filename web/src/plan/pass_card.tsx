import type { ForeseenPass, Lathe, PlannedPass, PlanWarning } from '../api/schema';
import { clockText, sizeAfter } from '../guide/dials';
import type { Face } from '../guide/faces';
import { ProbabilityTrack } from '../pictures/probability_bar';
import type { Dials } from '../show/dials';
import { lengthOfMm, percent } from '../show/length';
import { onRadius } from '../show/on_radius';
import { typeset } from '../show/typeset';
import { shop } from '../state/shop';
import { words } from '../words';
import type { ForceBand } from './force_band';
import { SteppedSlider } from './slider';
import { choicesOf, type Setting } from './what_if';

interface Props {
  faces: readonly Face[];
  at: number;
  count: number;
  pass: PlannedPass;
  /** What it will do, as far as the shop has answered. */
  foreseen: ForeseenPass | null;
  /** Of the cutting force, outboard and inboard, as far as they are known. */
  bands: readonly (ForceBand | null)[];
  warnings: readonly PlanWarning[];
  lathe: Lathe | null;
  dials: Dials;
  confidence: number;
  onChange: (setting: Setting, value: number) => void;
  onRemove: (() => void) | null;
}

const settingsOf = (faces: readonly Face[]): Setting[] => [
  ...faces.map((face) => `${face}_marks` as const),
  'feed_mm_per_rev',
  'rpm',
];

export function PassCard(props: Props) {
  const { faces, at, count, pass, foreseen, bands, warnings, lathe, dials, confidence, onChange, onRemove } = props;
  const { plan } = words;
  return (
    <section class="plan-pass" aria-label={plan.pass(at + 1)}>
      <div class="plan-pass-head">
        <h2>
          {plan.pass(at + 1)} {at === count - 1 && count > 1 ? <span class="soft">· {plan.last}</span> : null}
        </h2>
        {onRemove ? (
          <button type="button" class="plain" aria-label={plan.remove(at + 1)} onClick={onRemove}>
            ×
          </button>
        ) : null}
      </div>
      <div class="plan-settings">
        {settingsOf(faces).map((setting) => (
          <SettingOf key={setting} {...{ faces, at, setting, lathe, dials, onChange }} value={pass[setting]} />
        ))}
      </div>
      {warnings.map((one) => (
        <p class="trouble" key={one.code + one.text}>
          {typeset(one.text)}
        </p>
      ))}
      {foreseen ? <Foresight {...{ faces, foreseen, bands, confidence }} /> : null}
    </section>
  );
}

interface SettingProps {
  faces: readonly Face[];
  at: number;
  setting: Setting;
  value: number;
  lathe: Lathe | null;
  dials: Dials;
  onChange: (setting: Setting, value: number) => void;
}

function SettingOf({ faces, at, setting, value, lathe, dials, onChange }: SettingProps) {
  const { plan, cut } = words;
  const marks = setting === 'outboard_marks' || setting === 'inboard_marks';
  const unit = marks ? cut.marks(value) : plan.unit[setting];
  const depth_um = value * (setting === 'inboard_marks' ? dials.inboard_um : dials.outboard_um);
  const name = plan.setting[setting];
  return (
    <div class="plan-setting">
      <span class="soft">{name}</span>
      <span class="plan-value">
        <span class="plan-figure figures">{value}</span> <span>{unit}</span>
      </span>
      <span class="small soft figures">{marks ? depthText(depth_um, faces) : '\u00a0'}</span>
      <SteppedSlider
        label={plan.setting_of(name, at + 1)}
        text={`${value} ${unit}`}
        values={choicesOf(setting, value, lathe)}
        value={value}
        onChange={(next) => onChange(setting, next)}
      />
    </div>
  );
}

/** The depth that the marks set; of a drum on its radius, with the change of its diameter beside it. */
function depthText(um: number, faces: readonly Face[]): string {
  const how = { unit: shop.value?.settings.default_unit ?? 'mm', resolution_nm: 1000 };
  return faces.length > 1 ? lengthOfMm(um / 1000, how) : onRadius(um, how);
}

const whole = (value: number | null | undefined) => (value === null || value === undefined ? '–' : value.toFixed(0));

interface ForesightProps {
  faces: readonly Face[];
  foreseen: ForeseenPass;
  bands: readonly (ForceBand | null)[];
  confidence: number;
}

function Foresight({ faces, foreseen, bands, confidence }: ForesightProps) {
  const { plan } = words;
  const how = { unit: shop.value?.settings.default_unit ?? 'mm', resolution_nm: 1000 };
  const p = foreseen.p_over_machine_to ?? null;
  const size = sizeAfter(foreseen);
  return (
    <>
      <dl class="plan-foresight">
        <div>
          <dt>{plan.time}</dt>
          <dd>
            <span class="plan-second figures">{clockText(foreseen.time_s)}</span> {plan.min_s}
          </dd>
        </div>
        <div>
          <dt>{plan.surface_speed}</dt>
          <dd>
            <span class="plan-second figures">{whole(foreseen.surface_speed_m_per_min)}</span> {plan.m_per_min}
          </dd>
        </div>
        <div>
          <dt>{plan.ra}</dt>
          <dd>
            <span class="plan-second figures">
              {plan.band(foreseen.ra_low_um.toFixed(1), foreseen.ra_high_um.toFixed(1))}
            </span>{' '}
            µm
            <span class="small soft figures"> {plan.ra_ideal(foreseen.ra_um.toFixed(2))}</span>
          </dd>
        </div>
        <ForceOf faces={faces} foreseen={foreseen} bands={bands} />
        <div>
          <dt>{plan.power}</dt>
          <dd>
            <span class="plan-second figures">{whole(foreseen.power_w)}</span> W
          </dd>
        </div>
      </dl>
      <div class="plan-after">
        {size ? (
          <p>
            <span class="soft">{plan.after}</span> <span class="plan-second figures">{lengthOfMm(size.mm, how)}</span>{' '}
            <span class="small soft figures">± {lengthOfMm((2 * size.u_um) / 1000, how)}</span>
          </p>
        ) : null}
        {p === null ? (
          <p class="small soft">{plan.no_machine_to}</p>
        ) : (
          <>
            <ProbabilityTrack p={p} confidence={confidence} />
            <p class={p < confidence ? 'trouble' : 'small'}>{plan.p_over(percent(p))}</p>
          </>
        )}
      </div>
    </>
  );
}

function ForceOf({ faces: cut, foreseen, bands }: Omit<ForesightProps, 'confidence'>) {
  const { plan, guide } = words;
  const faces = cut.map((face, i) => ({
    face,
    force: foreseen[`force_${face}_n`],
    band: bands[i] ?? null,
  }));
  return (
    <div class="plan-force">
      <dt>{plan.force}</dt>
      {faces.map(({ face, force, band }) => (
        <dd key={face}>
          {force === null || force === undefined ? (
            <span class="small">{plan.force_none}</span>
          ) : (
            <>
              <span class="plan-second figures">{whole(force)}</span> N{' '}
              <span class="small soft figures">
                {[
                  cut.length > 1 ? plan.force_of(guide[face]) : '',
                  band ? plan.band(whole(band.force_low_n), whole(band.force_high_n)) : '',
                ]
                  .filter(Boolean)
                  .join(', ')}
              </span>
            </>
          )}
        </dd>
      ))}
      {bands.some((one) => one?.extrapolated) ? <dd class="small soft">{plan.extrapolated}</dd> : null}
    </div>
  );
}
