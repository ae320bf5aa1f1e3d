/** What the rotor is held against. */
export const limits = {
  title: 'Limits',
  names: {
    nominal: 'Thickness when new',
    machine_to: 'Machine-to',
    discard: 'Discard',
    variation: 'Thickness variation',
    runout: 'Runout on the car',
    scoring: 'Groove that may stay',
    finish_ra: 'Finish after the cut',
    out_of_round: 'Out-of-round',
    taper: 'Taper, bell-mouth or barrel',
  },
  meanings: {
    nominal: 'How thick the rotor was when new. It gives the picture its scale and the wear its measure.',
    machine_to:
      'The least thickness that a cut may leave. It lies above discard, because the rotor still has to wear after it is fitted again.',
    discard:
      'At or under this the rotor is scrap, on the car too. On most parts this is the figure cast into the metal.',
    variation: 'Highest less lowest thickness round one circle. This is what the driver feels.',
    runout: 'How far the face swings in one turn on the car, highest less lowest.',
    scoring: 'The deepest groove that may stay in a face.',
    finish_ra: 'The roughest that a face may be after the cut, as Ra.',
    out_of_round: 'Largest less least diameter at one depth. This is what the driver feels.',
    taper:
      'Largest less least of the mean diameters at the depths: taper, bell-mouth and barrel alike. It keeps the lining from bearing over its whole width.',
  },
  which_of_two:
    'A part that says only “minimum thickness” or “MIN TH” gives one of these two and does not say which. On most parts it is discard (common practice, no source): look in the service information before you call it machine-to.',
  picture: {
    title: 'The rotor’s edge, to scale',
    new: 'new',
    machine_to: 'machine-to: a cut stops here',
    discard: 'discard: scrap from here on',
    room: 'wear room',
    stock: 'may come off',
    unknown: 'not entered',
    invented: 'Shape only: no figures are entered yet.',
  },
  unknown: 'unknown',
  value: 'Figure',
  value_hint: { length: '0.815 in, 21,4 mm', small: '0.013 mm, .0005 in', finish: '1.5 µm, 60 µin' },
  other_unit: 'The other unit, if the part gives both',
  other_unit_hint: 'checks the two against each other',
  source: 'It comes from',
  sources: {
    cast_on_part: 'cast on the part',
    service_information: 'service information',
    house_rule: 'house rule',
    common_practice: 'common practice, no source',
    unknown: 'source unknown',
  },
  note: 'Where exactly',
  note_hint: 'page, edition, place on the part',
  save: 'Keep this figure',
  clear: 'Make it unknown',
  close: 'Leave as it was',
  same_for_both: 'Both alike',
  doubts: {
    machine_to_not_over_discard: (by: string) =>
      by === ''
        ? 'Machine-to and discard are the same figure. One of the two is probably the other, entered twice.'
        : `Machine-to lies ${by} under discard: that way round it cannot be. Have the two been changed over?`,
    nominal_under_machine_to: (by: string) => `The rotor would be ${by} thinner when new than a cut may leave it.`,
    nominal_not_over_discard: () => 'The rotor would be scrap when new. Look at both figures again.',
  },
  two_units: {
    agree: 'The two units say the same.',
    rounding: (by: string) =>
      `The two units differ by ${by}. Rounding can do that. The thicker figure is the careful one.`,
    disagree: (by: string) =>
      `The two units differ by ${by}, more than rounding explains: one is a misprint or a misreading. Look again.`,
    take: (text: string) => `Use ${text}`,
  },
  house: {
    offer: (sum: string, allowance: string) =>
      `Machine-to is unknown. This shop’s house rule is discard plus ${allowance}, which gives ${sum}.`,
    take: 'Use the house rule',
    note: (allowance: string) => `discard + ${allowance}`,
    none: 'Machine-to is unknown. Without it nothing can be said about a cut. A house rule can be set under Shop.',
  },
  allowances: {
    lead: 'Common practice, no source, for light vehicles: the figure cast in the drum goes before it.',
    machine_to: (sum: string, over: string) => `Machine-to at new plus ${over}: ${sum}`,
    discard: (sum: string, over: string) => `Discard at new plus ${over}: ${sum}`,
    note: (over: string) => `new + ${over}, where nothing is cast`,
  },
  sizes: {
    title: 'The drum and its shoe',
    lead: 'None has to be known. The band gives the time of a pass; the lining shows how it will bear.',
    band_width: 'Width of the braking band, along the axis',
    lining_radius: 'Radius of the lining’s outer face',
    lining_radius_hint: 'half of what a gauge reads across the shoes',
    lining_arc_deg: 'Angle that the lining covers, degrees',
    arc_bad: '10 to 170 degrees.',
    arc_hint: '120',
    keep: 'Keep these',
    kept: 'Kept.',
  },
  known: {
    title: 'Has the shop met this part?',
    part: 'Which part of the shop’s it is like',
    filled_from: 'one that the shop remembers',
    hint: 'words that it goes by',
    none: 'No part goes by these words.',
    empty: 'The shop remembers no part yet.',
    fill: 'Fill in',
    remember: 'Remember this part',
    remember_name: 'The shop’s own words for it',
    remember_hint: 'saloon front, vented, 22 mm',
    remember_save: 'Remember',
    remembered: (name: string) => `Remembered as ${name}.`,
    filled: (name: string) => `Filled in from ${name}. Hold the figures against the part.`,
  },
  ask_unit: (unit: string) =>
    `Is that in ${unit === 'in' ? 'inches' : 'millimetres'}? Write the unit behind the figure.`,
} as const;
