const KINDS = { disc: 'discs', drum: 'drums', drum_in_hat: 'drums in the hats' };

/** Jobs of one vehicle: its other axle, and the drums in the hats of its discs. */
export const beside = {
  title: 'The same vehicle',
  lead: 'A job of its own, with the vehicle, customer, odometer, complaint and tyre copied.',
  of_axle: { front: 'Front axle', rear: 'Rear axle' },
  kinds: KINDS,
  open: {
    other_disc: (axle: string) => `Open the ${axle}: discs`,
    other_drum: (axle: string) => `Open the ${axle}: drums`,
    hats: 'Open the drums in the hats of these discs',
  },
  job: (number: number, axle: string, kind: string) => `Job ${number}: ${axle}, ${kind}`,
  sealed: 'sealed',
  print: 'Print the whole vehicle',
  board: 'Same vehicle:',
} as const;
