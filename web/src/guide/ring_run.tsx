import type { ForeseenPass } from '../api/schema';
import { Figure } from '../pictures/figure';
import { words } from '../words';
import { clockText, toolRadius } from './dials';

const SPAN = 100;

export interface RingSize {
  inner_mm: number;
  outer_mm: number;
}

interface Props {
  ring: RingSize;
  pass: ForeseenPass;
  elapsed_s: number;
}

/** The face with what is cut by now, and the tool where the clock has it: inside to outside. */
export function RingRun({ ring, pass, elapsed_s }: Props) {
  const { clock } = words.guide;
  const scale = 90 / ring.outer_mm;
  const inner = ring.inner_mm * scale;
  const outer = ring.outer_mm * scale;
  const at = toolRadius(ring, pass, elapsed_s) * scale;
  const cut = Math.min(Math.max(at, inner), outer);
  return (
    <Figure name={clock.ring} kind="ring-run" says={clock.says(clockText(elapsed_s), clockText(pass.time_s))}>
      <svg class="ring-run" viewBox={`${-SPAN} ${-SPAN} ${2 * SPAN} ${2 * SPAN}`} aria-hidden="true">
        <circle r={outer} class="ring-metal" />
        <circle r={(inner + cut) / 2} class="ring-run-cut" stroke-width={cut - inner} />
        <circle r={inner} class="ring-plate" />
        <circle r={inner * 0.86} class="ring-hat" />
        <circle r={inner * 0.4} class="ring-hat" />
        <circle r={outer} class="ring-line" />
        <g transform={`translate(${at} 0)`} class="ring-run-tool">
          <path d="M0 0L9 -5.5H26V5.5H9Z" />
        </g>
      </svg>
    </Figure>
  );
}
