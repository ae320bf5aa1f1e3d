import type { Spoken } from '../spoken';
import { DRUMS } from './before';

/** What of a drum is said otherwise than of a rotor: on the lathe and after it. */
const PRACTICE = 'Common practice, no source.';

export const lathe: Spoken = {
  mount: {
    rotor: DRUMS,
    which: 'Which drum',
    seat: {
      lead: 'Measured once on the drum, with caliper or depth gauge. The letters are those of the drawing.',
      names: {
        flange: 'Thickness of the closed end',
        flat_inner: 'Outer flat, inner diameter',
        flat_outer: 'Outer flat, outer diameter',
        flat_inner_inboard: 'Inner flat, inner diameter',
        flat_outer_inboard: 'Inner flat, outer diameter',
        outer_diameter: 'Drum, outer diameter',
      },
      change: 'What the drum measures',
      notes: {
        flat_inner: 'The machined flat outside the closed end, where the second clamp bears.',
        flat_inner_inboard: 'The flat inside the drum. Empty: as the outer one.',
      },
      both: 'The same for both drums',
      picture: { hubless: 'A drum in section', hubbed: 'A drum with its hub in section' },
    },
    stack: {
      the_rotor: 'the drum',
      rotor_hubless: 'Closed end between the clamps, open side as the lathe’s instructions have it.',
      rotor_hubbed: 'On its races. The cups are tight, clean and without marks.',
      caution: [
        'Machine off, and the spindle stands still.',
        'The machine’s own instructions go first, for the order of the pieces and how tight the nut is.',
        'A drum is heavy and its rim is sharp: both hands, and nothing loose on the sleeves.',
        'Balance weights on the drum stay on.',
      ],
    },
    nearest: { title: 'Nothing on the pegboard carries this drum' },
    check: {
      lead: 'A chip under an adapter turns a perfect cut into a drum that runs out on the car.',
      steps: {
        bore_clean: 'Bore of the drum: no rust, no burr.',
        faces_clean: 'Flats where clamps or tapers bear: bare and clean.',
      },
    },
    proof: {
      swing_note:
        'Tip inside on the braking surface, half way in, spindle turned by hand, lowest to highest. It is on the radius.',
      scratch_lead: [
        'Run it and bring the tool in until it just marks inside. Stop; wait until it stands still.',
        'Read the middle of the mark from the index mark, and how long it is, in degrees.',
        'Slacken the nut, turn the drum half a turn, leave the pieces as they are, tighten. Mark again at another depth.',
      ],
      scratch_picture: 'The inside with its marks: middle and length are read from the index mark',
      mark: ['First mark', 'Second mark, the drum turned half a turn'],
      share_rotor: 'Drum',
      one_mark: 'One mark tells how much. The second, with the drum turned half a turn, tells whose it is.',
      costs: (cost) => `Cut in this mount, it would cost ${cost} of depth on the radius.`,
      reason_rotor: 'The wobble is the drum’s own; the mount is within the rule.',
      advice: {
        whose:
          'Over the shop’s rule, and whose wobble it is cannot be told from this. Clean bore, flats and pieces, turn the drum a quarter turn on the arbor, tighten and read again; or make the two-scratch test.',
        rotor:
          'Over the shop’s rule, but the mount itself is within it: the wobble is the drum’s own, and the cut takes it off. It may go on with that as the reason.',
      },
    },
  },
  plan: {
    picture: 'The passes on the wall',
    layer: (n, _face, depth) => `Pass ${n}: ${depth} on the radius.`,
    layer_label: (n) => `Depth of pass ${n} on the radius`,
    inner_edge: 'closed end',
    outer_edge: 'open edge',
    to_scale:
      'Depths on the radius, to one scale; limits half of the diameter. Drag a numbered handle, or step it with the arrow keys.',
    limit_beyond: (word, by) => `${word[0]?.toUpperCase()}${word.slice(1)} lies ${by} of diameter further out.`,
    setting: { outboard_marks: 'Depth' },
    power: 'Power',
    after: 'Widest after it',
    p_over: (p) => `${p} probability that it stays at or under machine-to`,
    sources: [
      'Ra: ideal from feed and nose, times what grey iron leaves of it.',
      'Force: Kienzle with 1160 N/mm², 0.26 for GJL-250; ± 20 %, and − 20/+ 50 % where extrapolated.',
      'Diameter: where the tool first touches as mounted, and twice every mark.',
      'Depths of drum work, rough up to 0.12 to 0.20 mm, last pass 0.025 to 0.038 mm on the radius: common practice, no source.',
      'Each cut makes the drum run hotter; only light cuts. Common practice, no source.',
    ],
    leaves: (mm) => `leaves ${mm} diameter`,
    needed: (depth) => `Least that must come off: ${depth} on the radius.`,
    warnings: 'Against the rules',
    missing: {
      band_width: 'Width of the braking band',
      'part.band_width': 'Width of the braking band',
      outer_diameter: 'Diameter of the drum',
      'part.outer_diameter': 'Diameter of the drum',
    },
  },
  cut: {
    rotor: DRUMS,
    lead: 'From first touch, in all, on the radius.',
    lead_settled: 'As settled on in the plan: from first touch, all passes together, on the radius.',
    outboard: 'Depth',
    leaves: (diameter) => `leaves ${diameter} diameter`,
    stop_at: (diameter) => `never over ${diameter}`,
    cautions: [
      'The machine’s own instructions go first, then the shop’s rules and the teacher.',
      'Guards and shields on. The drum and the adapters tight, the damper strap round it.',
      'Eye protection with side cover.',
      'No gloves, loose sleeves, rings, lanyards near anything that turns. Long hair tied.',
      'Never leave it running alone. Hands, rags and gauges stay out of the drum until it stands still.',
      'Chips and dust: brush or vacuum when it stands, never the air line.',
    ],
    done_title: 'What the dial was turned by',
    cool: 'Let it cool to room temperature before it is measured: 50 K make a 300 mm drum 0.165 mm wider.',
    no_side: 'No mark: was anything cut?',
    far_off: (depth) => `Far from the plan, ${depth}: read the dial once more.`,
  },
  guide: {
    rotor: DRUMS,
    outboard: 'Depth',
    no_plan: 'No passes are settled for this drum.',
    steps: {
      edges: {
        title: 'Look at the edge',
        lines: ['Sharp to the lens: no chip, no shine.', 'A dull edge rubs: torn grey metal, and a bell-mouth.'],
      },
      band_on: {
        title: 'Damper strap on',
        lines: [
          'Round the outside of the drum, snug, its hook closed.',
          'Balance weights stay on. Turn the drum by hand: nothing touches.',
        ],
      },
      guards: {
        title: 'Guards, glasses, sleeves, hair',
        lines: [
          'Guards and chip shields on. The arbor nut tight.',
          'Glasses with side cover on.',
          'Sleeves close, long hair tied, rings and cords off.',
          'No gloves at the turning drum, no hand inside it.',
        ],
      },
      machine_on: {
        lines: ['The tool clear of the drum.', 'Set this speed, stand out of its plane, then the switch.'],
      },
      heads_open: {
        title: 'Tool clear',
        lines: ['Turn the tool in towards the axis until it is well clear of the surface.'],
      },
      run_in: {
        title: 'Run in',
        lines: [
          'Run the bar into the drum. The last inch (25 mm) by hand, slowly: the closed end is near.',
          'Stop half way across the band, away from the wear lip.',
        ],
      },
      touch_outboard: {
        title: 'Touch off',
        lines: [
          'Turn the tool out until it just marks. Ear: a light tick. Eye: a faint line. Feel: a slight drag at the wheel.',
          'A mark over three quarters of the turn or more: commonly taken as well mounted. Stop there and lock it.',
        ],
      },
      dial_outboard: { title: 'Dial to zero' },
      inner_edge: {
        title: 'Run to the closed end',
        lines: [
          'Feed off. By hand, past the inner edge of the band.',
          'Keep clear of the closed end. The lip there goes in steps, by hand.',
        ],
      },
      marks: {
        title: 'The depth',
        lines: [
          'Turn in one direction only. Past it? Back half a turn, and come up again.',
          'Depth is on the radius: the diameter changes by twice it. Does this dial read depth or diameter?',
        ],
      },
      lock: { title: 'Lock the tool' },
      feed_on: { lines: ['Set this feed, engage it outward, to the open edge.', 'The clock starts with your tick.'] },
      feed_off: { lines: ['The tool off the surface, the bar out of the drum.'] },
      machine_off: { lines: ['Hands, rags and gauges stay out of the drum until it stands still.'] },
      measure: {
        lines: [
          'It stands still. Chips off with a brush or vacuum, never the air line.',
          'The widest place, at the same depth as before. Warm reads wide: 50 K make 300 mm 0.165 mm more.',
        ],
      },
      stopped: { lines: ['Feed off. Tool off the surface. Machine off. Hands away until it stands still.'] },
    },
    further: 'deeper',
    clear_tick: 'The tool is clear of the edge',
    measure_far: 'Far from what is expected: wrong unit, or the wrong drum? Measure once more.',
    band_unknown: 'No strap is on record. Use the one that fits round the drum.',
    corner_choose: { outboard: 'Edge' },
    touch_again: 'The surface is part cut: touch where this pass has not been.',
    as_it_stands: 'The dial stays as it stands: the same depth again.',
    clock: {
      by_clock: 'Where the tool should be, by the clock. Look at the drum.',
      soon: 'Soon at the open edge',
      past: 'Is the tool clear of the edge?',
      from_edge: (mm) => `${mm} from the open edge`,
      ring: 'The band and the tool',
    },
    picture: { says: 'The drum cut through its axis, the tool inside it.' },
    trouble: {
      what_to_do: {
        chatter: [
          'Feed off, tool off the surface, machine off.',
          'Is the damper strap on, and tight? Is the edge sharp? Is the bar held short, the slide snug?',
          'Mend that. Then a slower or other speed.',
          'Count the marks in one turn: with the speed they give the frequency.',
        ],
        noise: [
          'Feed off, tool off the surface, machine off.',
          'A step in the surface: the nut came loose or the tool slipped. Mount again, touch off anew.',
          'A tick at the same spots, blue or shiny there: hard spots. They do not cut away; the teacher rules.',
        ],
      },
    },
    after_stop: {
      edge: 'Again from the closed end',
      edge_note: 'the tool stands at the same depth, the drum was not moved',
      touch_note: 'the drum or the tool was moved',
    },
    dials: {
      title: 'What the dial took',
      lead: 'From first touch, in all, on the radius. Filled in from the passes: put right what was otherwise.',
      stopped: 'The last pass was stopped: part of the band has this depth.',
    },
    all_done: 'This drum is cut.',
  },
  finish: {
    not_cut: 'This drum is not cut yet.',
    steps: {
      sand_outboard: {
        title: 'Sand inside, no direction',
        lines: [
          'The drum turns slowly. 120 or 150 grit on a holder that reaches in, never on the fingers; light, in and out.',
          '45 to 60 seconds. The tool’s spiral goes, crossing scratches stay.',
        ],
        source: PRACTICE,
      },
      washed: {
        lines: [
          'Machine off, drum off the arbor. Hot water, soap and a brush; rinse, dry at once, inside and outside.',
          'Solvent alone leaves graphite and fines in the surface.',
        ],
      },
      cloth_white: {
        lines: ['Wipe the braking surface with a clean white cloth. It stays white, or it is washed again.'],
      },
      cool: {
        lines: ['To the temperature of the room, beside the gauge. Only then measure. Flat, never on its edge.'],
      },
    },
    caution:
      'Glasses on; no gloves or loose sleeves, no fingers inside the turning drum; the holder held so that it cannot be drawn in. The machine’s instructions go first.',
    of_seconds: '45 to 60 s',
    reads_more: (kelvin) => `too wide while it is ${kelvin} K over the room`,
  },
  check: {
    checks: {
      machine_to: 'Diameter at or under machine-to',
      discard: 'Diameter under discard',
      variation: 'Out-of-round',
    },
    removed: 'Gained at each diameter',
    removed_lead: 'On the diameter, after less before: twice the depth on the radius.',
    planned: 'The marks say',
    on_circle: (depth) => `${depth} in from the rim`,
    rotor: DRUMS,
    not_yet_lead: (done, wanted) => `${done} of ${wanted} diameters are measured after the cut.`,
    car: 'Both drums of an axle to one size. Adjust the shoes, and try the parking brake, before the car moves.',
  },
};
