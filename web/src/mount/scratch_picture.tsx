import { Figure } from '../pictures/figure';
import { spotAt, type Turning } from '../pictures/ring_geometry';
import { words } from '../words';

interface DrawnMark {
  centre_deg: number | null;
  arc_deg: number | null;
}

interface Props {
  marks: readonly DrawnMark[];
  turning: Turning;
}

const OUTER = 84;
const INNER = 46;
/** The second mark is made further in, so that both can be seen. */
const RADII = [74, 58] as const;
/** Shown until something is typed: what a mark looks like. */
const SAMPLE: DrawnMark = { centre_deg: 60, arc_deg: 110 };
const STEP_DEG = 5;

/** The face from outside: each mark with its middle, both read from the index mark. */
export function ScratchPicture({ marks, turning }: Props) {
  const { proof } = words.mount;
  const typed = marks.some((mark) => mark.centre_deg !== null && mark.arc_deg !== null);
  const shown = typed ? marks : [SAMPLE];
  return (
    <Figure name={proof.scratch_picture} kind="scratch" says={typed ? '' : proof.scratch_picture}>
      <svg class="ring" viewBox="-110 -110 220 220" aria-hidden="true">
        <circle r={OUTER} class="ring-metal" />
        <circle r={INNER} class="ring-plate" />
        <circle r={INNER - 5} class="ring-hat" />
        <circle r={13} class="ring-plate" />
        <path class="scratch-index" d={`M0 ${-OUTER - 2} l-5 -9 h10 Z`} />
        <text class="ring-word" x={16} y={-OUTER - 8}>
          {proof.index}
        </text>
        {shown.map((mark, at) =>
          mark.centre_deg === null || mark.arc_deg === null ? null : (
            <MarkOnFace
              key={at}
              number={at + 1}
              centre_deg={mark.centre_deg}
              arc_deg={Math.min(360, Math.max(0, mark.arc_deg))}
              radius={RADII[at] ?? 58}
              turning={turning}
              sample={!typed}
            />
          ),
        )}
      </svg>
    </Figure>
  );
}

interface MarkProps {
  number: number;
  centre_deg: number;
  arc_deg: number;
  radius: number;
  turning: Turning;
  sample: boolean;
}

function MarkOnFace({ number, centre_deg, arc_deg, radius, turning, sample }: MarkProps) {
  const spot = (deg: number, r = radius) => {
    const { x, y } = spotAt(deg, r, turning);
    return `${x.toFixed(2)} ${y.toFixed(2)}`;
  };
  const steps = Math.max(1, Math.ceil(arc_deg / STEP_DEG));
  const arc = Array.from({ length: steps + 1 }, (_, i) => spot(centre_deg - arc_deg / 2 + (arc_deg * i) / steps));
  const word = spotAt(centre_deg, 99, turning);
  return (
    <g class={`scratch-mark-${number} ${sample ? 'scratch-sample' : ''}`}>
      <path class="scratch-arc" d={`M${arc.join(' L')}`} />
      <path class="scratch-middle" d={`M0 0 L${spot(centre_deg, 92)}`} />
      <text class="ring-word" x={word.x} y={word.y}>
        {sample ? words.mount.proof.middle : String(number)}
      </text>
    </g>
  );
}
