/** Somebody else changed the same thing meanwhile. */
export const conflict = {
  title: 'Changed meanwhile',
  lead: 'Somebody else saved this while you were at it. Nothing is lost: choose for each line.',
  theirs: 'Theirs',
  mine: 'Yours',
  was: 'It was',
  save: 'Save the choice',
  merged: (n: number) =>
    n === 1
      ? 'One other field that somebody changed was taken over.'
      : `${n} other fields that somebody changed were taken over.`,
  empty: 'empty',
} as const;
