import type { Part } from '../api/schema';
import { Figure } from '../pictures/figure';
import { kindOf } from '../show/part_kind';
import { words } from '../words';
import { type SeatName, seatFields } from './seat_fields';

interface Arrow {
  /** From and to; a diameter is drawn from the axis, with a point at its far end alone. */
  from: readonly [number, number];
  to: readonly [number, number];
  label: readonly [number, number];
}

const AXIS = 190;

/** Not to scale: the places where each size is taken, upper half in section. */
const HUBLESS: Partial<Record<SeatName, Arrow>> = {
  bore: { from: [246, AXIS], to: [246, 148], label: [246, 172] },
  flange: { from: [206, 62], to: [222, 62], label: [214, 46] },
  flat_inner: { from: [276, AXIS], to: [276, 128], label: [276, 162] },
  flat_outer: { from: [306, AXIS], to: [306, 92], label: [306, 144] },
  flat_inner_inboard: { from: [186, AXIS], to: [186, 128], label: [186, 162] },
  flat_outer_inboard: { from: [158, AXIS], to: [158, 98], label: [158, 144] },
  ring_inner: { from: [64, AXIS], to: [64, 74], label: [64, 134] },
  outer_diameter: { from: [28, AXIS], to: [28, 12], label: [28, 104] },
};
const HUBBED: Partial<Record<SeatName, Arrow>> = {
  hub_length: { from: [120, 176], to: [272, 176], label: [196, 176] },
  inner_race: { from: [100, AXIS], to: [100, 140], label: [100, 164] },
  outer_race: { from: [294, AXIS], to: [294, 148], label: [294, 168] },
  ring_inner: { from: [64, AXIS], to: [64, 74], label: [64, 134] },
  outer_diameter: { from: [28, AXIS], to: [28, 12], label: [28, 104] },
};
const PARTS = {
  hubless: ['M84 12 H112 V74 H84 Z', 'M112 64 V76 H206 V148 H222 V64 Z'],
  integral_hub: [
    'M84 12 H112 V74 H84 Z',
    'M112 64 V76 H206 V116 H222 V64 Z',
    'M120 140 V116 H272 V148 H250 V158 H142 V140 Z',
  ],
};
const DRUM_OUTER: Arrow = { from: [60, AXIS], to: [60, 22], label: [60, 112] };
const DRUMS = {
  hubless: ['M84 22 H222 V148 H206 V36 H84 Z'],
  integral_hub: ['M84 22 H222 V116 H206 V36 H84 Z', 'M120 140 V116 H272 V148 H250 V158 H142 V140 Z'],
};
const FLATS = 'M222 128 V92 M206 128 V98';
const RACES = 'M120 140 H142 M250 148 H272';

interface Props {
  part: Pick<Part, 'construction' | 'kind'>;
  active: SeatName | null;
}

/** Where on the rotor each size is taken, as labelled arrows. */
export function SeatPicture({ part, active }: Props) {
  const { seat } = words.mount;
  const { construction } = part;
  const drum = kindOf(part) === 'drum';
  const sizes = construction === 'integral_hub' ? HUBBED : HUBLESS;
  const arrows = drum ? { ...sizes, outer_diameter: DRUM_OUTER } : sizes;
  const fields = seatFields(part);
  return (
    <Figure
      name={seat.picture[construction === 'integral_hub' ? 'hubbed' : 'hubless']}
      kind="seat"
      says={seat.says(fields.map((field) => `${field.letter} ${seat.names[field.name]}`).join(', '))}
    >
      <svg viewBox="0 0 330 206" aria-hidden="true" class="seat">
        {(drum ? DRUMS : PARTS)[construction].map((path) => (
          <path key={path} class="seat-metal" d={path} />
        ))}
        <path class="seat-touched" d={construction === 'integral_hub' ? RACES : FLATS} />
        <line class="stack-axis" x1={0} x2={330} y1={AXIS} y2={AXIS} />
        {fields.map(({ name, letter }) => {
          const arrow = arrows[name];
          return arrow ? <SeatArrow key={name} arrow={arrow} letter={letter} lit={name === active} /> : null;
        })}
      </svg>
    </Figure>
  );
}

function SeatArrow({ arrow, letter, lit }: { arrow: Arrow; letter: string; lit: boolean }) {
  const { from, to, label } = arrow;
  const across = from[1] === to[1];
  const point = ([x, y]: readonly [number, number], way: 1 | -1) =>
    across ? `M${x} ${y} l${way * 6} -3 v6 Z` : `M${x} ${y} l-3 ${way * 6} h6 Z`;
  const heads = across ? `${point(from, 1)} ${point(to, -1)}` : point(to, 1);
  return (
    <g class={lit ? 'seat-arrow lit' : 'seat-arrow'}>
      <path d={`M${from.join(' ')} L${to.join(' ')}`} />
      <path class="seat-head" d={heads} />
      <circle cx={label[0]} cy={label[1]} r={10} />
      <text x={label[0]} y={label[1]}>
        {letter}
      </text>
    </g>
  );
}
