import type { ForeseenPass } from '../api/schema';
import { Figure } from '../pictures/figure';
import { words } from '../words';
import { clockText, toolTravel } from './dials';

interface Props {
  width_mm: number;
  pass: ForeseenPass;
  elapsed_s: number;
}

const CLOSED = 34;
const OPEN = 176;
const SURFACE = 58;

/** The drum's wall in section with what is cut by now, and the tool where the clock has it: closed end to open edge. */
export function BandRun({ width_mm, pass, elapsed_s }: Props) {
  const { clock } = words.guide;
  const scale = (OPEN - CLOSED) / width_mm;
  const at = CLOSED + toolTravel(width_mm, pass, elapsed_s) * scale;
  const cut = Math.min(Math.max(at, CLOSED), OPEN);
  return (
    <Figure name={clock.ring} kind="ring-run" says={clock.says(clockText(elapsed_s), clockText(pass.time_s))}>
      <svg class="ring-run" viewBox="0 0 200 150" aria-hidden="true">
        <path class="drum-iron" d={`M20 30H${OPEN}V${SURFACE}H${CLOSED}V132H20Z`} />
        <rect class="band-run-cut" x={CLOSED} y={SURFACE - 8} width={cut - CLOSED} height="8" />
        <g class="ring-run-tool" transform={`translate(${at} ${SURFACE})`}>
          <path d="M0 0L-6 11V22H60V11H6Z" />
        </g>
      </svg>
    </Figure>
  );
}
