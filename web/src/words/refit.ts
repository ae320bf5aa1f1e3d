import type { Turning } from '../pictures/ring_geometry';
import type { RefitWord } from '../refit/refit_steps';

const studs = (n: number) => (n === 1 ? '1 stud' : `${n} studs`);

interface StepWords {
  title: string;
  lines: readonly string[];
  source: string;
  done: string;
}

const steps: Record<RefitWord, StepWords> = {
  flange_clean: {
    title: 'Clean the hub’s flange',
    lines: [
      'Wire brush or coarse cloth, wet, right up to the studs and into the corner at the pilot.',
      'Run a finger round it: no flake, no burr, no paint.',
    ],
    source: 'Common practice. What a flake does is worked out below.',
    done: 'It is clean',
  },
  hat_clean: {
    title: 'Clean inside the hat',
    lines: ['The same on the rotor’s own face, where it sits on the flange.', 'Wipe both dry.'],
    source: 'Common practice.',
    done: 'It is clean',
  },
  part_on: { title: '', lines: [], source: 'Worked out from what was read.', done: 'It is on' },
  nuts_by_hand: {
    title: 'All nuts on by hand',
    lines: [
      'Look the torque up for this vehicle, and say where. It differs by vehicle, stud and wheel.',
      'Threads dry and clean unless the vehicle’s instructions say otherwise. All nuts down to the face by hand.',
    ],
    source: 'The vehicle’s own figure; none is kept here.',
    done: 'All are on',
  },
  nuts_first: { title: 'First round', lines: [], source: '', done: 'First round is done' },
  nuts_second: { title: 'Second round', lines: [], source: '', done: 'Second round is done' },
  nuts_full: { title: 'Last round', lines: [], source: '', done: 'All are at torque' },
  runout_checked: {
    title: 'Read it as it is fitted',
    lines: ['Indicator as before, the same circle, the same points from the hub’s chalk mark.'],
    source: 'The bench proves thickness; only this proves runout.',
    done: 'It is read',
  },
  pedal_pumped: {
    title: 'Pump the pedal hard',
    lines: [
      'The pads stand back from the faces: the first strokes go to the floor. Pump until the pedal is high and hard, and stays so.',
      'Look at the fluid. Then start, and pump once more.',
    ],
    source: 'Common practice.',
    done: 'It is high and hard',
  },
  bedding_told: {
    title: 'Give the driver the card',
    lines: ['Say it, and hand it over.'],
    source: 'Common practice, no source. What the maker of the pads and the vehicle’s own instructions say goes first.',
    done: 'The driver has it',
  },
  retorque_told: {
    title: 'Say when the nuts are drawn up again',
    lines: ['Nuts settle. Write the day or the distance down where the driver sees it.'],
    source:
      'Common practice, no source: after 80 to 160 km (50 to 100 miles). The vehicle’s own instructions go first.',
    done: 'It is said',
  },
};

/** A rotor that goes back on its hub. */
export const refit = {
  title: 'Back on the car',
  which: 'Which rotor',
  loading: 'Working out how it goes on…',
  turn: (n: number, way: Turning) => (n === 0 ? 'Put it back on its mark' : `Turn it ${way} by ${studs(n)}`),
  turn_lines: (n: number, way: Turning) =>
    n === 0
      ? ['The rotor’s chalk mark at the hub’s: on the stud that it came from.']
      : [
          `The rotor’s chalk mark stands at ${n === 1 ? 'the next stud' : `stud ${n}`} ${way} of the hub’s mark, seen from outside.`,
          'Push it home on all studs: it must not rock.',
        ],
  mark_washed: 'Is the chalk gone? It sat at the index mark, point 1 of the readings at the bench.',
  plate_lines: (name: string, n: number, way: Turning) =>
    `${name} between flange and hat, its thick side ${n === 0 ? 'at the hub’s mark' : `${studs(n)} ${way} of the hub’s mark`}.`,
  picture: 'How the rotor goes on',
  says: (turn: string) => `${turn}. The hub’s chalk mark is at the top.`,

  foreseen: 'runout foreseen',
  range: (low: string, high: string) => `most likely; 95 % between ${low} and ${high}`,
  limit: (text: string, source: string) => `limit ${text}${source ? `, ${source}` : ''}`,
  no_limit: 'No runout limit is entered for this rotor.',
  to_limits: 'Enter it',
  within: 'Within the runout limit',
  missing: 'What is missing for the whole answer',
  missing_field: {
    'part.studs': 'the number of studs',
    'part.outer_diameter': 'the rotor’s outer diameter',
    'part.hub_reading_diameter': 'the circle on which the bare hub was read',
    'part.limits.runout': 'the runout limit',
  } as Record<string, string>,
  studs_first: 'First count the studs',
  nothing: 'Nothing was read on the car: any position may be as good.',
  nothing_do:
    'Read the rotor on its hub once it is on, and turn it on from there. Or read it in two positions first: then the best is known before the nuts are drawn up.',

  positions: {
    title: 'All positions',
    says: (best: string, least: string, most: string) => `Best: ${best}, ${least}. Worst: ${most}.`,
    on_mark: 'on its mark',
    turned: (n: number, way: Turning) => `${n} ${way}`,
    plate: (name: string) => `with ${name}`,
    best: 'best',
    chosen: 'chosen',
    read: 'read so',
    position: 'Position',
    runout: 'Likely runout',
    range: '95 % range',
    within: 'Within limit',
  },
  is_on: 'It is on. For another position, take it off first.',
  reason: 'Why another position?',
  reason_note: 'It goes on record beside what was worked out.',
  reason_needed: 'Say why another position than the best is taken.',

  whose: {
    title: 'Whose runout it is',
    hub: 'Hub',
    rotor: 'Rotor',
    rotor_came: 'Rotor as it came, before the cut',
    sum: 'Both together, as it goes on',
    sum_before_plate: 'Both together, before the plate',
    says: (hub: string, rotor: string) => `Hub ${hub}, rotor ${rotor}, once per turn, peak to valley.`,
    vectors: 'Once per turn: arrows point at the high spot, as long as it is high',
    traces: 'As read on the car',
    bare: 'bare hub',
    turned: (n: number) => (n === 0 ? 'rotor on its mark' : `rotor turned by ${n}`),
    at_position: (text: string) => `${text} alone`,
    not_told: (orders: string) => `Whose it is cannot be told for what comes ${orders} times a turn.`,
  },
  told: 'What this rests on',
  next_reading: 'What to measure next',
  to_car: 'Read it on the car',

  start: 'Begin: clean the hub',
  go_on: 'On with the steps',
  look_again: 'How it goes on',
  place: (n: number, of: number) => `Step ${n} of ${of}`,
  undo: (step: string) => `Take back: ${step}`,
  steps,
  done_all: 'Both are back on the car',
  done_one: 'It is back on the car',
  other: (rotor: string) => `${rotor}: put it back`,
  to_record: 'To the record',

  flake: {
    title: 'What a flake of rust does',
    flake: 'Flake under the hat',
    flange: 'Radius of the flange',
    rotor: (radius: string) => `read at ${radius} from the middle`,
    gives: 'of runout from this flake alone',
    formula: 'runout = flake × radius at the indicator ÷ radius of the flange',
    source: 'Plane geometry: the rotor rocks on the flake and on the edge opposite.',
    picture: 'A rotor that sits on a flake of rust, seen from the edge; the tilt is drawn larger than it is',
    says: (flake: string, runout: string) => `A flake of ${flake} makes ${runout} of runout.`,
  },

  nuts: {
    torque: 'Torque of this vehicle',
    torque_hint: '110',
    unit: { nm: 'N·m', lbft: 'lb·ft' },
    source: 'Where it stands',
    source_hint: 'owner’s book, page',
    wrong: 'A number over 0 and up to 1000 N·m.',
    source_needed: 'Say where the figure stands.',
    order: 'In this order, with a torque wrench by hand',
    order_says: (order: string) => `Order of the nuts: ${order}.`,
    picture: 'Order of the nuts',
    stage: (percent: number) => `${percent} % of the torque`,
    whole: 'the whole torque',
    common: 'Star order and rounds of 30, 60 and 100 %: common practice, no source.',
    caution: 'Draw up by hand',
    caution_lines: [
      'No impact wrench: it bends hats and stretches studs.',
      'Car still on its stands; wheel kept from turning by a second person or the brake, not by a bar between studs.',
      'A torque stick or a feeling in the arm is no torque wrench.',
    ],
    caution_source: 'The vehicle’s own instructions go first.',
  },

  check: {
    begin: 'Begin to read',
    again: 'Read it again',
    read: 'read as fitted',
    against: (foreseen: string) => `foreseen ${foreseen}`,
    within: 'Within the limit that was entered.',
    over: 'Over the limit. Nuts off, look for dirt between the faces, then put it on again.',
    none: 'No limit is entered to hold it against.',
    strange:
      'Not what was foreseen: dirt between the faces, another position, or nuts not alike. Look before it goes on.',
    off: 'Take it off again',
    anyway: 'It stays as it is',
    back: 'Back to the steps',
    points: (read: number, of: number) => `${read} of ${of} points read`,
  },

  pedal_caution: 'Before it moves at all',
  pedal_caution_lines: [
    'Nobody drives it, not even off the lift, before the pedal is high and hard.',
    'First brake at walking pace, in a clear space.',
  ],

  card: {
    title: 'For the driver',
    vehicle: (vehicle: string, axle: string) => `${vehicle}, ${axle}`,
    why: 'The brakes have freshly cut or cleaned faces. Pads and discs have to run in on each other.',
    lines: [
      'Before it moves: press the pedal several times until it is high and firm. If it stays soft or sinks, do not drive; tell the shop.',
      'First at walking pace, in a safe place: brake gently. The car must stop straight, without noise.',
      'Then, where the traffic allows it, about ten steady, moderate stops from some 50 down to 10 km/h, with half a minute of driving between them to cool.',
      'Do not stand still with the pedal pressed while the brakes are hot: the pad leaves its print on the disc.',
      'For the first 300 km avoid hard and long braking unless you have to. In an emergency always brake as hard as needed.',
      'Stop where it is safe and call the shop at once if the pedal travels further or sinks, a lamp comes on, the car pulls to one side, or something scrapes, smells or shakes.',
    ],
    nuts: 'After 80 to 160 km (50 to 100 miles) have the wheel nuts checked by hand with a torque wrench.',
    source:
      'Common practice, no source. What the maker of the pads and the vehicle’s own instructions say goes before this card.',
    print: 'Print the card',
    job: (n: number) => `Job ${n}`,
  },
};
