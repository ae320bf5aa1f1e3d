import { expect, it } from 'vitest';
import { onRadius } from '../../web/src/show/on_radius';

it('the depth of a cut in a drum is told on the radius, and beside it twice that on the diameter', () => {
  expect(onRadius(150, { unit: 'mm', resolution_nm: 1000 })).toBe('0.150 mm on the radius, 0.300 mm on the diameter');
  expect(onRadius(25.4, { unit: 'in', resolution_nm: 2540 })).toBe(
    '0.0010 in on the radius, 0.0020 in on the diameter',
  );
});
