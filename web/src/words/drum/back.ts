import type { Spoken } from '../spoken';

/** What of a drum is said otherwise than of a rotor: back on the car, on the road and on record. */
const PRACTICE = 'Common practice, no source.';

export const back: Spoken = {
  pictures: { hub: { rotor_mark: 'chalk mark of the drum' } },
  record: { kinds: { 'part.changed': 'changed a drum', 'mount.recorded': 'mounted a drum' } },
  refit: {
    which: 'Which drum',
    turn_lines: () => [
      'The drum’s chalk mark at the hub’s: on the stud that it came from.',
      'Push it home on all studs: it must not rock.',
    ],
    mark_washed:
      'Is the chalk gone? The index mark, where diameter 1 was read at the bench, goes to the stud it came from.',
    picture: 'How the drum goes on',
    nothing: 'It goes back on its mark.',
    nothing_do: 'Without a mark, any position is as good as another: how a drum sits cannot be read from outside.',
    steps: {
      flange_clean: { source: PRACTICE },
      hat_clean: {
        title: 'Clean the drum where it sits',
        lines: [
          'The same on the drum’s own flat, where it sits on the flange, and in its bore.',
          'Wipe both dry. Oil and finger marks off the braking surface.',
        ],
      },
      part_on: { source: PRACTICE },
      pedal_pumped: {
        title: 'Adjust the shoes, pump the pedal',
        lines: [
          'The drum is wider than it was: adjust the shoes and try the parking brake by the vehicle’s own instructions.',
          'Pump until the pedal is high and hard, and stays so. Look at the fluid. Then start, and pump once more.',
        ],
      },
      bedding_told: {
        source: `${PRACTICE} What the maker of the linings and the vehicle’s own instructions say goes first.`,
      },
    },
    nuts: {
      caution_lines: [
        'No impact wrench: it pulls a drum out of round and stretches studs.',
        'Car still on its stands; wheel kept from turning by a second person or the brake, not by a bar between studs.',
        'A torque stick or a feeling in the arm is no torque wrench.',
      ],
    },
    card: {
      why: 'The brakes have freshly cut or cleaned drums. Linings and drums have to run in on each other.',
      lines: [
        'Before it moves: press the pedal several times until it is high and firm, and try the parking brake. If the pedal stays soft or sinks, do not drive; tell the shop.',
        'First at walking pace, in a safe place: brake gently. The car must stop straight, without noise.',
        'Then, where the traffic allows it, about ten steady, moderate stops from some 50 down to 10 km/h, with half a minute of driving between them to cool.',
        'Do not pull the parking brake hard while the brakes are hot: a drum that cools draws in on its shoes.',
        'For the first 300 km avoid hard and long braking unless you have to. In an emergency always brake as hard as needed.',
        'Stop where it is safe and call the shop at once if the pedal travels further or sinks, a lamp comes on, the car pulls to one side, or something scrapes, smells or shakes.',
      ],
      source: `${PRACTICE} What the maker of the linings and the vehicle’s own instructions say goes before this card.`,
    },
  },
  road: {
    no_promise: 'Ranges of what the sums allow, not a promise: linings, air and the driver change all of it.',
    part: 'Which drum',
    felt: {
      lead: 'A pattern that goes once, twice... round the drum beats so fast. Each band is as wide as the tyre leaves it open.',
    },
  },
};
