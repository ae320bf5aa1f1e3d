/** Who is at the tablet, asked before anything else. */
export const who = {
  title: 'Who is it?',
  lead: 'What is entered from now on carries this name.',
} as const;
