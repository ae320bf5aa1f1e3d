/** Between the last pass and the readings after it. */
export const finish = {
  title: 'Finish',
  not_cut: 'This rotor is not cut yet.',
  to_cut: 'To the cut',
  place: (n: number, of: number) => `Step ${n} of ${of}`,
  steps: {
    sand_outboard: {
      title: 'Sand outboard, no direction',
      lines: [
        'The rotor turns. 120 grit on a powered head, or 150 grit on a hand block; moderate pressure, across and back.',
        '45 to 60 seconds. The tool’s spiral goes, crossing scratches stay.',
      ],
      source: 'Common practice, no source.',
    },
    sand_inboard: {
      title: 'Sand inboard, no direction',
      lines: ['The same for as long: both faces alike.'],
      source: 'Common practice, no source.',
    },
    washed: {
      title: 'Wash with soap and water',
      lines: [
        'Machine off, rotor off the arbor. Hot water, soap and a brush; rinse, dry at once, faces and vents.',
        'Solvent alone leaves graphite and fines in the face.',
      ],
      source: 'Common practice, no source. Some manuals use solvent instead: the vehicle’s own go first.',
    },
    cloth_white: {
      title: 'White cloth',
      lines: ['Wipe both faces with a clean white cloth. It stays white, or it is washed again.'],
      source: 'Common practice, no source.',
    },
    cool: {
      title: 'Let it cool',
      lines: ['To the temperature of the room, beside the micrometer. Only then measure.'],
      source: 'Worked out with 11e-6 per kelvin for grey iron.',
    },
  },
  caution:
    'Glasses on; no gloves or loose sleeves at the turning rotor; the block held so that it cannot be drawn in. The machine’s instructions go first.',
  seconds: 's',
  of_seconds: '45 to 60 s a side',
  start: 'Start the clock',
  done: 'Done',
  clean: 'It stayed white',
  grey: 'It came away grey: wash again',
  cold: 'It is cold',
  grit: 'Grit',
  grit_hint: '120',
  reads_more: (kelvin: number) => `too thick while it is ${kelvin} K over the room`,
  undo: (step: string) => `Take back: ${step}`,
  all_done: 'Finished: measure it cold',
  next: {
    mount: (rotor: string) => `${rotor}: mount it`,
    finish: (rotor: string) => `${rotor}: finish it`,
    after: 'Measure after the cut',
  },
} as const;
