import type { Turning } from '../pictures/ring_geometry';

const sense: Record<Turning, string> = { clockwise: 'clockwise', anticlockwise: 'anticlockwise' };
const studs = (n: number) => (n === 1 ? '1 stud' : `${n} studs`);

/** Readings on the car, before the rotor comes off and with it turned on its hub. */
export const car = {
  title: 'On the car',
  tab: {
    play: 'Bearing',
    as_it_came: 'As it came',
    hub: 'Bare hub',
    turned: (n: number) => `Turned ${n}`,
  },
  begin: 'Begin to read',
  leave_out: 'Leave it out',
  what_to_do: 'What to do first',

  caution: 'Under the car',
  caution_lines: [
    'Car on stands that bear it, on level ground, wheels on the ground chocked. Never under a car on a jack alone.',
    'Turn the wheel by hand only: engine off, gear out. Keep fingers out of fins, caliper and hub.',
    'Dust of linings harms: wet it, never blow it.',
  ],
  caution_source: 'The vehicle’s own instructions, local rules and whoever is licensed for the work go first.',

  setup: {
    title: 'How these wheels are read',
    lead: 'With chalk, mark one stud on the end and the rotor beside it. There is point 1, and from there studs and points count.',
    studs: 'Studs of the hub',
    studs_needed: 'Count the studs, or the bolt holes, of the hub.',
    points: 'Points round the turn',
    four: 'Four by eye are enough to begin with; they miss what comes twice a turn.',
    hub_diameter: 'Circle on which the bare hub is read, diameter',
    hub_diameter_note:
      'Only where the bare hub is read: as far out on the flange as the tip can stand. It can come later.',
    picture: 'The hub with its studs and its chalk mark',
    says: (n: number) => `${studs(n)}; the chalk mark is at the top.`,
    begin: 'Begin with the bearing',
    save: 'Keep it so',
  },

  play: {
    title: 'Bearing play first',
    lines: [
      'Indicator on a steady part, tip square on the end of the hub. Push and pull the rotor at top and bottom; do not turn it.',
      'Type how far it moves from in to out.',
      'A bearing with play swings the needle as a bent rotor does. Adjust it, or prove it good, before any runout is read.',
    ],
    source:
      'Common practice, no source: a sealed bearing shows none, an adjustable one 0.025 to 0.127 mm (from memory). The vehicle’s own figure goes first.',
    next: 'Next: the rotor on its hub',
  },
  as_it_came: {
    title: 'The rotor as it came',
    lines: [
      'Wheel off. All nuts on, with washers, drawn up at the outboard face to the vehicle’s own torque. Two nuts alone bend a thin hat.',
      'Indicator on a steady part, tip square on the outboard face, on the circle that you chose.',
      'Turn it once round to settle it, stop with the tip at the chalk mark, zero the dial. Then read point by point.',
    ],
    source: 'Common practice; some practice uses two nuts only.',
    picture: 'The rotor on its mark',
    says: 'The chalk marks of hub and rotor stand together at the top.',
    next_hub: 'Next: the bare hub',
  },
  hub: {
    title: 'The bare hub',
    lines: [
      'Rotor off. Wire-brush the flange, wet; run a finger round it: no flake, no burr.',
      'Indicator on a steady part, tip square on the flange, as far out as it can stand between studs and edge.',
      'Zero at the chalk mark, and read the same points as on the rotor.',
    ],
    source:
      'Common practice. Where the flange cannot be reached, leave it out: the rotor turned on its studs tells as much.',
    picture: 'The bare hub',
    says: (n: number) => `The bare flange with ${studs(n)}, its chalk mark at the top.`,
  },
  turned: {
    title: (n: number, way: Turning) => `Turn the rotor ${sense[way]} by ${studs(n)}`,
    lines: (n: number, way: Turning) => [
      `Nuts off, rotor off its studs. Turn it ${sense[way]}, as seen from outside, until its chalk mark is ${studs(n)} from the hub’s.`,
      'Wipe both faces. All nuts on again, with washers, to the same torque.',
      'Points still count from the hub’s chalk mark: zero there, read the same points.',
    ],
    source: 'What goes round with the rotor is the rotor’s, what stays is the hub’s: plane geometry.',
    picture: 'The rotor turned on its hub',
    says: (n: number, way: Turning) => `The rotor’s chalk mark is ${studs(n)} ${sense[way]} of the hub’s.`,
  },
  next: {
    turn: (n: number) => `Next: turn it by ${studs(n)}`,
    side: (rotor: string) => `Next: ${rotor.toLowerCase()}`,
    on: (step: string) => `On: ${step.toLowerCase()}`,
  },
  another: 'Read another position',
  to_car: 'Read it on the car',
  never_read: 'This wheel was not read on the car',
  drum: {
    title: 'A drum is not read on its hub',
    why: 'It is closed in there: no indicator reaches its inside. Its runout is read on the lathe, and it goes back on its mark.',
  },
  why: 'A rotor that is true on the lathe can still run out on its hub. Read here, that comes to light.',
};
