/** What probably went wrong with a part that was cut. */
export const diagnosis = {
  title: 'What may have gone wrong, if anything',
  lead: (signs: number) =>
    signs === 1
      ? 'From the one sign that this job has on record. What is not on record counts for nothing.'
      : `From the ${signs} signs that this job has on record. What is not on record counts for nothing.`,
  speaks_for: 'Speaks for it',
  speaks_against: 'Speaks against it',
  correction: 'What helps',
  next: 'Would tell most next',
  rest: (n: number) => (n === 1 ? 'One that is less probable' : `${n} that are less probable`),
  signs: 'What it goes by',
  learnt: (parts: string) =>
    `Learnt from ${parts} simulated parts, each spoilt by one known cause or by none, all equally likely beforehand. A real bench can do what no simulation does: the check decides, not the number.`,
};
