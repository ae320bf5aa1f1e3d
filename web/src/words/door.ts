/** Coming in: names, PINs and passwords, and a teacher's signature at somebody else's tablet. */
export const door = {
  title: 'Who is it?',
  lead: 'Choose your name.',
  nobody: 'Nobody can come in yet: a teacher enters the names.',
  password: 'Password',
  pin_pad: 'Digits of the PIN',
  back: 'Last digit away',
  show: 'Show',
  hide: 'Hide',
  come_in: 'Come in',
  another: 'Another name',
  choose_pin: 'Choose a PIN',
  choose_pin_why: '4 to 8 digits that nobody else knows. From now on you come in with it.',
  repeat_pin: 'The same PIN again',
  repeat: 'Go on',
  not_the_same: 'These were two different PINs. Choose again.',
  no_password: 'A teacher gives this name its first password.',
  wait: (s: number) => `The next try can be made in ${s} s.`,
  idle_out: 'Nobody touched this tablet for a while. What was half typed is kept for whoever typed it.',
  ended_out: 'Your time here was over, so come in again. What was half typed is kept for whoever typed it.',
  waiting: (n: number, name: string) =>
    n === 1
      ? `1 entry of ${name} waits here until they come in again.`
      : `${n} entries of ${name} wait here until they come in again.`,

  first_title: 'Who teaches here?',
  first_lead:
    'The first account of the shop. With its password nobody can act in another’s name; students come in with a PIN.',
  first_make: 'Make the account',
  password_note: '8 characters or more. It can be set anew only at the machine that runs Brakewright.',

  open_title: 'Anybody can act as anybody here',
  open_why:
    'No teacher of this shop has a password yet. With yours the doors are closed: everybody comes in by a PIN or password of their own.',
  open_close: 'Give myself a password',
  close: 'Close the doors',

  you: 'At this tablet',
  leave: 'Leave this tablet',
  mine: { pin: 'Change my PIN', password: 'Change my password', signing: 'Set my PIN for signing' },
  signing_why: 'With it you sign on a student’s tablet.',
  present: { pin: 'PIN as it is now', password: 'Password as it is now' },
  fresh: { pin: 'New PIN', password: 'New password' },
  set: 'Set it',
  is_set: 'It is set.',

  sign_title: 'A teacher signs here',
  sign_who: 'Who signs?',
  sign: 'Sign',
  sign_pin: 'PIN for signing',
  sign_none: 'No teacher has a PIN for signing yet. They set one under their own name, at the top.',

  secret: { pin: 'PIN', password: 'Password' },
  has_none: (kind: 'pin' | 'password') =>
    kind === 'pin' ? 'No PIN yet: chosen at the first sign-in.' : 'No password yet: this name cannot come in.',
  has_one: (kind: 'pin' | 'password') => (kind === 'pin' ? 'Has a PIN.' : 'Has a password.'),
  give: { pin: 'Give a new PIN', password: 'Give a password' },
  take_away: 'Take the PIN away',
} as const;
