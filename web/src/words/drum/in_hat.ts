import type { Spoken } from '../spoken';

/** What is said otherwise of a drum that is the hat of a disc. */
export const inHat: Spoken = {
  arrival: {
    rotors: {
      construction: { hubless: 'Loose disc', integral_hub: 'Disc with its hub' },
      construction_note: 'The disc that carries the drum. One with its hub turns on its own bearing races.',
    },
  },
  look: { lead: 'The drum inside the hat, both its edges, the hat, the disc round it. Choose what you see.' },
  mount: {
    seat: {
      names: { flange: 'Thickness of the flange', outer_diameter: 'Disc, outer diameter' },
      notes: { flat_inner: 'The machined flat on the outside of the hat, where the second clamp bears.' },
      picture: { hubless: 'A disc with a drum in its hat, in section', hubbed: 'A disc with its hub in section' },
    },
    stack: { rotor_hubless: 'The flange between the clamps; the open side of the hat must stay free for the tool.' },
  },
  guide: {
    steps: {
      band_on: {
        title: 'Damper strap on',
        lines: ['Round the disc, snug, its hook closed.', 'Turn the part by hand: nothing touches.'],
      },
    },
  },
};
