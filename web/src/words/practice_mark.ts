/** What a practice run was worth. */
const parts: Record<string, string> = {
  measuring: 'Measuring',
  verdict: 'The decision',
  stack: 'The stack on the arbor',
  proof: 'Proof of the mount',
  metal: 'Iron taken off',
  time: 'Time at the bench',
  finish: 'The finish',
  runout: 'Runout on the car',
  safety: 'Safety',
};

export const practice_mark = {
  title: 'Your mark',
  title_of: (name: string) => `Mark of ${name}`,
  given_up: 'Given up',
  of: 'of 100 points',
  safe: 'No unsafe act.',
  unsafe: 'An unsafe act ended it: the points do not count towards a permit.',
  part: (code: string) => parts[code] ?? code.replace(/_/g, ' '),
  points: (n: string, of: string) => `${n} of ${of}`,
  weakest: 'weakest',
  parts: 'What counted',
  expert: 'What an expert would have done',
  truth: 'What was wrong',
  nothing_wrong: 'Nothing was wrong with this one.',
  next: 'The next exercise',
  next_why: 'Why this one next',
  loading: 'Counting the points…',
} as const;
