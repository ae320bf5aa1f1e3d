/** Who is at the tablet, asked before anything else. */
export const who = {
  title: 'Who is it?',
  lead: 'What is entered from now on carries this name.',
  first_title: 'Who teaches here?',
  first_lead: 'The first person in the shop. Pupils and others are added afterwards.',
} as const;
