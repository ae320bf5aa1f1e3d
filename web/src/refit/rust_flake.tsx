import { useState } from 'preact/hooks';
import { Stepper } from '../measure/stepper';
import { Figure } from '../pictures/figure';
import { type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import { runoutOfFlake } from './flake';

interface Props {
  /** Where the indicator stands, and how far out the flange goes, as far as they are known. */
  rotor_radius_mm: number;
  flange_radius_mm: number;
  how: HowShown;
}

const STEP_UM = 10;
const MOST_UM = 200;

/** A flake of rust under the hat, and what it makes at the indicator. */
export function RustFlake({ rotor_radius_mm, flange_radius_mm, how }: Props) {
  const [flake_um, setFlake] = useState(30);
  const [flange_mm, setFlange] = useState(Math.round(flange_radius_mm));
  const { flake } = words.refit;
  const runout_um = runoutOfFlake(flake_um, rotor_radius_mm, flange_mm);
  const um = (value: number) => lengthOfMm(value / 1000, how);
  const round = { ...how, resolution_nm: how.unit === 'mm' ? 1_000_000 : 2_540_000 };
  return (
    <section class="flake" aria-label={flake.title}>
      <h2>{flake.title}</h2>
      <div class="flake-inner">
        <Figure name={flake.picture} kind="flake" says={flake.says(um(flake_um), um(runout_um))}>
          <Tilted flake_um={flake_um} rotor_mm={rotor_radius_mm} flange_mm={flange_mm} />
        </Figure>
        <div class="flake-lines">
          <p class="guide-big">
            <span class="flake-digits digits">{um(runout_um)}</span>
            <span>{flake.gives}</span>
          </p>
          <Stepper
            label={flake.flake}
            value={flake_um}
            show={um}
            step={STEP_UM}
            least={0}
            most={MOST_UM}
            onChange={setFlake}
          />
          <Stepper
            label={flake.flange}
            value={flange_mm}
            show={(mm) => lengthOfMm(mm, round)}
            step={5}
            least={20}
            most={Math.max(20, Math.floor(rotor_radius_mm))}
            onChange={setFlange}
          />
          <p class="small soft">
            {flake.formula}; {flake.rotor(lengthOfMm(rotor_radius_mm, round))}. {flake.source}
          </p>
        </div>
      </div>
    </section>
  );
}

const LARGER = 0.09;

/** Seen from the edge: hub to the left, the rotor tilted about the flange's lower edge by the flake at the upper. */
function Tilted({ flake_um, rotor_mm, flange_mm }: { flake_um: number; rotor_mm: number; flange_mm: number }) {
  const scale = 84 / rotor_mm;
  const flange = flange_mm * scale;
  const lift = flake_um * LARGER;
  const angle = (Math.atan2(lift, 2 * flange) * 180) / Math.PI;
  return (
    <svg class="flake-picture" viewBox="-60 -96 140 192" aria-hidden="true">
      <path d={`M-30 ${-flange}H0V${flange}H-30Z`} class="ring-metal" />
      <path d="M-60 -9H-30V9H-60Z" class="ring-metal" />
      <g transform={`rotate(${angle} 0 ${flange})`}>
        <path d={`M0 ${-flange - 6}H8V${flange + 6}H0Z`} class="ring-metal" />
        <path d="M8 -84H24V84H8Z" class="ring-metal" />
      </g>
      <path d="M44 -84V84" class="trace-limit" />
      {flake_um > 0 ? <circle cx={lift / 2} cy={-flange + 3} r={Math.max(2, lift / 2)} class="flake-rust" /> : null}
    </svg>
  );
}
