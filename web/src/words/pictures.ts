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
  scale: { what: 'What', from: 'From' },
  perTurn: {
    times: (order: number) => `${TIMES[order] ?? `${order} times`} per turn`,
    blind: 'these points cannot see it',
    pattern: 'Pattern',
    height: 'Height',
    high: 'High spot at',
  },
};
