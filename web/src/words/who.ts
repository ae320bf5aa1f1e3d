/** Who is at the tablet. */
export const who = {
  title: 'Who is it?',
  lead: 'What is entered from now on carries this name.',
  first_title: 'Who teaches here?',
  first_lead: 'The first person in the shop. Pupils and others are added afterwards.',
  name: 'Name',
  add: 'Somebody new',
  save: 'That is me',
  roles: { teacher: 'teacher', student: 'student', lead_hand: 'lead hand', visitor: 'visitor' },
  role: 'In the shop as',
  cancel: 'Back',
  nobody: 'Nobody chosen',
  no_passwords: 'Names only: this shop asks for no passwords.',
} as const;
