import type { Spoken } from '../spoken';

/** What of a drum is said otherwise than of a rotor: as it comes, is looked at and measured. */
const PRACTICE = 'common practice, no source';

export const DRUMS = { left: 'Left drum', right: 'Right drum' };

export const before: Spoken = {
  trade: {
    quantity: {
      runout_outboard: 'Runout inside',
      scoring_outboard: 'Deepest groove',
      roughness_outboard: 'Roughness Ra',
      hat_height: 'Depth of the drum',
    },
    rotor: (which) => DRUMS[which],
    waitsFor: { findings: 'a look inside' },
  },
  arrival: {
    rotors: {
      question: 'Which drums?',
      sides_note: 'Left and right as the driver sits. Both drums of an axle are judged together.',
      construction: { hubless: 'Loose drum', integral_hub: 'Drum with its hub' },
      construction_note: 'A drum with its hub turns on its own bearing races.',
      side: DRUMS,
    },
    fixed: 'Which drums belong to the job was fixed when it was opened.',
  },
  limits: {
    names: { nominal: 'Diameter when new', scoring: 'Groove that may stay' },
    meanings: {
      nominal: 'How wide the drum was when new. It gives the picture its scale and the wear its measure.',
      machine_to:
        'The largest diameter that a cut may leave. It lies under discard, because the drum still has to wear after it is fitted again.',
      discard:
        'At or over this diameter the drum is scrap, on the car too. On most drums this is the figure cast into the metal.',
      scoring: 'The deepest groove that may stay in the braking surface.',
      finish_ra: 'The roughest that the surface may be after the cut, as Ra.',
    },
    which_of_two:
      'A drum that says only “maximum diameter” or “MAX DIA” gives one of these two and does not say which. On most drums it is discard (common practice, no source): look in the service information before you call it machine-to. The figure cast in the drum goes before any rule.',
    picture: {
      title: 'The drum’s inside, to scale: down is larger',
      machine_to: 'machine-to: a cut stops here',
      discard: 'discard: scrap from here on',
    },
    value_hint: { length: '10.060 in, 255,5 mm', small: '0.13 mm, .005 in' },
    doubts: {
      machine_to_not_over_discard: (by) =>
        by === ''
          ? 'Machine-to and discard are the same figure. One of the two is probably the other, entered twice.'
          : `Machine-to lies ${by} over discard: that way round it cannot be. Have the two been changed over?`,
      nominal_under_machine_to: (by) => `The drum would be ${by} wider when new than a cut may leave it.`,
      nominal_not_over_discard: () => 'The drum would be scrap when new. Look at both figures again.',
    },
    two_units: {
      rounding: (by) => `The two units differ by ${by}. Rounding can do that. The smaller figure is the careful one.`,
    },
    house: {
      offer: (sum, allowance) =>
        `Machine-to is unknown. This shop’s house rule is discard less ${allowance} on the diameter, which gives ${sum}.`,
      note: (allowance) => `discard - ${allowance}`,
    },
    known: { remember_hint: 'saloon rear, 9 in drum' },
  },
  look: {
    lead: 'The braking surface and both its edges, the outside, the closed end. Choose what you see.',
    ring: {
      text: 'Hang the drum from a cord through a stud hole and tap its rim with something light. A sound casting rings. A dull, short note can mean a crack: look again, wet with a penetrant if the shop uses one.',
    },
    kinds: {
      crack: ['Crack', 'any, in the surface, the rim, a stud hole'],
      heat_check: ['Heat checks', 'fine short lines across the surface'],
      hard_spot: ['Hard spots', 'dark or shiny islands that a tool rides over'],
      blueing: ['Blueing', 'blue or straw bands from heat'],
      broken_fin: ['Broken fin', 'a cooling fin outside is broken'],
      rust_lip: ['Wear or rust lip', 'a ridge at the open edge, where the linings end'],
      deep_pitting: ['Deep pits', 'rust pits in the braking surface'],
      loose_hat: ['Loose hat', 'the hat moves, or rust lifts it'],
    },
    practices: {
      hard_spot:
        'A hardened tool or a stone takes light ones off; some reject every drum with hard spots. The teacher rules.',
      broken_fin: 'Commonly noted; a reject where a crack runs from it or the drum is out of balance.',
      worn_bearing_race: 'Commonly a reject until the race is renewed: a drum with its hub is held by it on the lathe.',
      other: 'Say what it is, and whether it rules the drum out.',
      rust_lip: 'Commonly noted: it is taken off first, or the tool catches and the gauge reads it for the diameter.',
    },
    judgement_means: { reject: 'It rules the drum out, whatever is measured.' },
    note_hint: 'open edge, near the index mark',
    rotor: DRUMS,
  },
  measure: {
    tab: { runout_outboard: 'Runout', hat: 'Depth', on_hub: 'Drum on its hub' },
    sides: 'Which drum',
    point: (point, of) => `Diameter ${point} of ${of}`,
    pointAlone: (point) => `Diameter ${point}`,
    circle: (circle, of) => (circle === 0 ? 'open edge' : circle === of - 1 ? 'closed edge' : 'middle depth'),
    back: 'The diameter before',
    on: 'The next diameter',
    allRead: (what) => `${what}: every one is read`,
    pickToRepeat: 'Choose a diameter to repeat or replace its reading.',
    ring: {
      name: (what) => `${what}, the drum seen into`,
      runout: { low: 'narrower', middle: 'middle', high: 'wider', lowest: 'lowest' },
    },
    setup: {
      title: 'How this drum is gone over',
      change: 'Change how it is gone over',
      points: 'Diameters at each depth',
      circles: 'Depths',
      fromEdge: (circle) => `${circle[0]?.toUpperCase()}${circle.slice(1)}, in from the rim`,
      oneCircle: 'Depth',
      micrometer: 'Drum gauge',
      indicator: 'Dial indicator, for runout inside',
      line: (points, turning, circles) => `${points} diameters ${turning}, ${circles}`,
      atEdge: (distances) => `${distances} in from the rim`,
      index:
        'Mark one stud hole as the index with chalk; diameter 1 begins there. The others spread over half a turn: a diameter is the same half a turn on. Go round at one depth, then at the next. Read beside the wear lip and grooves, not on them.',
    },
    zero: {
      ask: 'Set it in its standard, or against a micrometer. What does it show, less what it should?',
    },
    caution:
      'Turn the drum by hand only, with the lathe switched off at its main switch. It is heavy, its rim is sharp, and dust of linings harms: wet it, never blow it. The lathe’s and the vehicle’s own instructions and your shop’s rules come first.',
    numbers: {
      none: 'Numbers come with the third diameter of a depth.',
      lowest: 'Largest',
      atPoint: (point) => `at diameter ${point}`,
      variation: 'Out-of-round',
      decides: 'This gauge',
      decidesNotYet: 'cannot tell yet from these readings',
      taper: 'Closed edge less open edge',
      patterns: 'Twice per turn',
      runoutOver: (where) => `highest less lowest, ${where}`,
    },
    working: {
      lowest:
        'Mean of the readings at each diameter, less the zero error, brought to 20 °C: d₂₀ = (d − zero) · (1 − 11·10⁻⁶ · (T − 20)). The largest of these decides.',
      variation: 'Largest diameter less least at one depth, where that is most: the trade’s own figure.',
      variationSource:
        'A gauge across sees even waves alone: oval, four lobes. Eccentricity and three lobes need an indicator on the lathe.',
      mean: 'Sum of the means of all diameters divided by their number.',
      probable:
        'Many curves round the drum that fit these readings, given the gauge’s scatter and step, are drawn; the largest less the least diameter of each is the out-of-round that the drum may truly have. Shown: the middle one and the span that holds 95 % of them.',
      decides:
        'Within when the probability reaches what the shop asks for, outside when it is as unlikely as that; in between this gauge with these diameters cannot tell.',
      taper: 'Mean at the deepest depth less the mean at the open edge. A minus is a bell-mouth.',
      runout: 'Highest point less lowest point round the inside, on the radius.',
      runoutSource:
        'The trade’s own figure. A mount off centre shows here as once per turn, whatever the drum is like.',
      temperature: 'A warm drum is wider: growth = diameter · 11·10⁻⁶ · (T − 20). It is taken off every reading.',
      blind:
        'Across a diameter only even waves show, and of those the ones that go as often as there are readings, or half as often, can hide between them.',
    },
    next: { side: (what) => `Next: ${what.toLowerCase()} drum` },
  },
  pictures: {
    circle: (circle) => (circle === 0 ? 'open edge' : `depth ${circle + 1}`),
    ring: {
      says: (read, all) => `${read} of ${all} diameters read.`,
      lowest: (value, point) => `Largest ${value} at diameter ${point}.`,
      seen: 'seen into from the open edge',
    },
  },
  verdict: {
    rotor: DRUMS,
    one_rotor: `One drum only. Its partner on the axle is commonly turned to the same size (${PRACTICE}).`,
    no_cut_below: 'a drum at or over discard is scrap, and nobody may overrule that to a cut.',
    cut_plan: 'The least cut that cleans the drum',
    over_machine_to: 'under machine-to',
    over_discard: 'under discard',
    under_machine_to: 'over machine-to',
    under_discard: 'over discard',
    cuts_left: (n) =>
      n === 0
        ? 'No such cut fits under machine-to.'
        : n === 1
          ? 'This is the last such cut.'
          : `${n} such cuts fit under machine-to, this one counted.`,
    runout_assumed:
      'Nobody has read the runout inside on the lathe: the cut is reckoned from what else is known, and can change.',
    scale: { title: 'Diameter, to scale: down is larger', now: 'largest now' },
    formula: {
      now: 'where the tool first touches',
      cut: 'twice the depth',
      because_wobble:
        'Depth is on the radius and counts from first touch, at the narrowest place as mounted: the first marks can cut air elsewhere. The diameter changes by twice the depth.',
    },
    figures: {
      min: 'Largest',
      variation: 'Out-of-round, largest less least',
      true_variation: 'True out-of-round, probably',
      p_variation: 'Out-of-round within its limit',
      p_discard: 'Largest diameter under discard',
      p_final: 'At or under machine-to after the cut',
    },
    how_computed:
      'Computed by 20,000 draws over the readings, the scoring, the dial and the mount, with a fixed seed, on what is left to turn away.',
  },
};
