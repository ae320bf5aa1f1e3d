const TIMES = ['', 'Once', 'Twice', 'Three times', 'Four times', 'Five times', 'Six times'];

export const pictures = {
  hub: {
    hub_mark: 'chalk mark of the hub',
    rotor_mark: 'chalk mark of the rotor',
    plate: 'thick side of the plate',
    seen: 'seen from outside',
  },
  point: 'Point',
  angle: 'Angle',
  value: 'Value',
  deviation: 'From the mean',
  circle: (circle: number) => (circle === 0 ? 'outer circle' : `circle ${circle + 1}`),
  standing: { within: 'Within', outside: 'Outside', 'cannot tell': 'Cannot tell' },
  ring: {
    says: (read: number, all: number) => `${read} of ${all} points read.`,
    lowest: (value: string, point: number) => `Lowest ${value} at point ${point}.`,
    seen: 'seen from outside',
  },
  trace: {
    says: (name: string, low: string, high: string) => `${name}: from ${low} to ${high}.`,
  },
  probability: {
    says: (p: string, asked: string, word: string) => `${word}: ${p}; the shop asks for ${asked}.`,
    asked: (p: string) => `asked for ${p}`,
  },
  scale: { what: 'What', from: 'From', grows: 'larger' },
  drum: {
    section: 'The drum in section, and where the gauge is held',
    section_says: (at: string, depths: string) => `The gauge at ${at}. Depths: ${depths}.`,
    open_edge: 'open edge',
    closed_end: 'closed end',
    depth: 'Depth',
    mean: 'Mean diameter',
    profile: 'Mean diameter along the depth',
    shapes: {
      straight: 'Straight: the depths are alike',
      bell_mouth: 'Bell-mouth: wider at the open edge',
      taper: 'Taper: wider inside',
      barrel: 'Barrel: wider in the middle',
      waist: 'Waist: narrower in the middle',
    },
    not_to_scale: 'Differences enlarged.',
    shoe: 'Lining against drum',
    contacts: {
      full: 'The lining fits the drum',
      mid_shoe: 'The lining touches at mid-shoe',
      heel_and_toe: 'The lining touches at heel and toe',
    },
    gap_of: { full: 'gap', mid_shoe: 'gap at heel and toe', heel_and_toe: 'gap at mid-shoe' },
    heel: 'heel',
    toe: 'toe',
  },
  perTurn: {
    times: (order: number) => `${TIMES[order] ?? `${order} times`} per turn`,
    blind: 'these points cannot see it',
    pattern: 'Pattern',
    height: 'Height',
    high: 'High spot at',
  },
  orders: {
    speed: 'km/h over the road',
    rate: 'pulses a second',
    at: (speed: string) => `At ${speed} km/h:`,
    says: (times: string, low: string, high: string) => `${times}, ${low} to ${high} a second.`,
    felt: (hz: string) => `Felt: ${hz} a second.`,
  },
};
