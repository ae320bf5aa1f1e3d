import type { RefitAdvice } from '../api/schema';
import { Figure } from '../pictures/figure';
import { spotAt, type Turning } from '../pictures/ring_geometry';
import { Trace } from '../pictures/trace';
import { type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';

interface Props {
  advice: RefitAdvice;
  studs: number;
  turning: Turning;
  /** By how many studs the rotor is turned as it goes on. */
  turned: number;
  /** Whether a tapered plate goes between. */
  plate: boolean;
  how: HowShown;
}

interface Wave {
  amplitude_um: number;
  phase_deg: number;
}

const onceOf = (waves: readonly (Wave & { order: number })[] | undefined): Wave | null =>
  waves?.find((one) => one.order === 1) ?? null;

/** Hub and rotor told apart: as arrows to their high spots, and as the traces that were read. */
export function Whose(props: Props) {
  const { advice, how } = props;
  const { whose } = words.refit;
  if (advice.traces.length === 0) return null;
  const { separation } = advice;
  const untold = separation?.not_separable ?? [];
  return (
    <section class="whose" aria-label={whose.title}>
      <h2>{whose.title}</h2>
      <div class="whose-pictures">
        {separation ? <Vectors {...props} /> : null}
        <Trace
          name={whose.traces}
          how={how}
          series={advice.traces.map((one) => ({
            name: one.turned === null ? whose.bare : whose.turned(one.turned ?? 0),
            points: one.angles_deg.map((angle_deg, i) => ({ angle_deg, value_mm: (one.values_um[i] ?? 0) / 1000 })),
          }))}
        />
      </div>
      {untold.length > 0 ? <p>{whose.not_told(inWords(untold))}</p> : null}
    </section>
  );
}

const inWords = (orders: readonly number[]) =>
  orders.length > 1 ? `${orders.slice(0, -1).join(', ')} and ${orders.at(-1)}` : String(orders[0] ?? '');

const REACH = 78;

/**
 * Once per turn, hub and rotor: arrows from the middle towards the high spot, and what the two come to together. A rotor
 * that was cut since is not what it was: then it is drawn as it came, and no sum.
 */
function Vectors({ advice, studs, turning, turned, plate, how }: Props) {
  const { whose } = words.refit;
  const hub = onceOf(advice.separation?.carrier);
  const rotor = onceOf(advice.separation?.part);
  if (!hub || !rotor) return null;
  const asItIs = advice.evidence === 'positions';
  const turned_deg = { ...rotor, phase_deg: rotor.phase_deg + (asItIs ? (360 * turned) / studs : 0) };
  const sum = added(hub, turned_deg);
  const scale = REACH / Math.max(hub.amplitude_um, rotor.amplitude_um, sum.amplitude_um, 1e-9);
  const tall = (wave: Wave) => lengthOfMm((2 * wave.amplitude_um) / 1000, how);
  return (
    <Figure name={whose.vectors} kind="vectors" says={whose.says(tall(hub), tall(rotor))}>
      <p class="small soft">{whose.vectors}</p>
      <svg class="vectors" viewBox="-96 -96 192 192" aria-hidden="true">
        <circle r="86" class="ring-metal" />
        <circle r="2" class="hub-mark" />
        <path d="M0 -88l-5 -8h10Z" class="hub-mark" />
        <Arrow wave={hub} scale={scale} turning={turning} series="series-1" />
        <Arrow wave={turned_deg} scale={scale} turning={turning} series="series-2" dashed />
        {asItIs ? <Arrow wave={sum} scale={scale} turning={turning} series="vectors-sum" /> : null}
      </svg>
      <figcaption class="vectors-words">
        <Key series="series-1" word={whose.hub} value={tall(hub)} />
        <Key series="series-2" word={asItIs ? whose.rotor : whose.rotor_came} value={tall(rotor)} dashed />
        {asItIs ? (
          <Key series="vectors-sum" word={plate ? whose.sum_before_plate : whose.sum} value={tall(sum)} />
        ) : null}
      </figcaption>
    </Figure>
  );
}

const RADIANS = Math.PI / 180;

export function added(a: Wave, b: Wave): Wave {
  const part = (of: (x: number) => number) =>
    a.amplitude_um * of(a.phase_deg * RADIANS) + b.amplitude_um * of(b.phase_deg * RADIANS);
  const [x, y] = [part(Math.cos), part(Math.sin)];
  return { amplitude_um: Math.hypot(x, y), phase_deg: Math.atan2(y, x) / RADIANS };
}

interface ArrowProps {
  wave: Wave;
  scale: number;
  turning: Turning;
  series: string;
  dashed?: boolean;
}

function Arrow({ wave, scale, turning, series, dashed = false }: ArrowProps) {
  const length = wave.amplitude_um * scale;
  const tip = spotAt(wave.phase_deg, length, turning);
  const head = Math.min(10, length);
  const neck = spotAt(wave.phase_deg, length - head, turning);
  const side = { x: (-(tip.y - neck.y) / (head || 1)) * 5, y: ((tip.x - neck.x) / (head || 1)) * 5 };
  return (
    <g class={`vector ${series} ${dashed ? 'vector-dashed' : ''}`}>
      <path d={`M0 0L${neck.x} ${neck.y}`} class="vector-line" />
      <path
        d={`M${tip.x} ${tip.y}L${neck.x + side.x} ${neck.y + side.y}L${neck.x - side.x} ${neck.y - side.y}Z`}
        class="vector-head"
      />
    </g>
  );
}

function Key({
  series,
  word,
  value,
  dashed = false,
}: {
  series: string;
  word: string;
  value: string;
  dashed?: boolean;
}) {
  return (
    <span class="vectors-key">
      <svg
        width="28"
        height="12"
        viewBox="0 0 28 12"
        aria-hidden="true"
        class={`vector ${series} ${dashed ? 'vector-dashed' : ''}`}
      >
        <path d="M0 6H18" class="vector-line" />
        <path d="M28 6L18 1V11Z" class="vector-head" />
      </svg>
      <span>{word}</span>
      <span class="digits">{value}</span>
    </span>
  );
}
