import { expect, test } from 'vitest';
import { typeset } from '../../web/src/show/typeset';

test('micrometres get their sign, and no word that begins alike is touched', () => {
  expect(typeset('The dials took 400.0 um, 60.0 um of it through air.')).toBe(
    'The dials took 400.0 µm, 60.0 µm of it through air.',
  );
  expect(typeset('an umber disc under 20 umbrellas')).toBe('an umber disc under 20 umbrellas');
});
