import { describe, expect, it } from 'vitest';
import type { Part } from '../../web/src/api/schema';
import { mergeFields } from '../../web/src/conflict/merge';
import { isWhole, nameOfField, showField, shownSizes, UNTOUCHED, withSizes } from '../../web/src/limits/part_fields';

const mm = (text: string) => ({ text, unit: 'mm' as const });
const drum = (some: Partial<Part> = {}): Part => ({
  id: 'p',
  side: 'left',
  kind: 'drum',
  construction: 'hubless',
  vented: false,
  limits: {},
  version: 1,
  ...some,
});

describe('the sizes of a drum and its shoe', () => {
  it('follow what is stored until a field is touched', () => {
    expect(shownSizes(drum(), UNTOUCHED, 'mm').band_width.text).toBe('');
    const filled = drum({ band_width: mm('45'), lining_arc_deg: 118 });
    expect(shownSizes(filled, UNTOUCHED, 'mm')).toMatchObject({ band_width: { text: '45' }, arc: '118' });
    expect(shownSizes(filled, { units: {}, band_width: '46' }, 'mm').band_width.text).toBe('46');
  });

  it('are kept where nobody touched them, and cleared where somebody did', () => {
    const stored = drum({ band_width: mm('45'), lining_radius: mm('126'), lining_arc_deg: 118 });
    expect(withSizes(stored, { units: {}, arc: '120' }, 'mm')).toEqual({ ...stored, lining_arc_deg: 120 });
    expect(withSizes(stored, { units: {}, band_width: ' ' }, 'mm').band_width).toBeNull();
    expect(withSizes(stored, { units: { lining_radius: 'in' } }, 'mm').lining_radius).toEqual({
      text: '126',
      unit: 'in',
    });
  });
});

describe('a part that two people changed', () => {
  const was = drum({ band_width: mm('45'), lining_radius: mm('126'), lining_arc_deg: 110 });
  const theirs = drum({
    band_width: mm('46'),
    lining_radius: mm('127'),
    lining_arc_deg: 118,
    outer_diameter: mm('300'),
    seat: { bore: mm('60') },
  });
  const mine = drum({
    band_width: mm('47'),
    lining_radius: mm('128'),
    lining_arc_deg: 120,
    outer_diameter: mm('301'),
    seat: { bore: mm('61') },
  });

  it('has each of its fields whole and in words', () => {
    const { conflicts } = mergeFields(was, theirs, mine, isWhole);
    expect(conflicts.map(({ path, mine: my }) => [path, nameOfField(path), showField(path, my)]).sort()).toEqual(
      [
        ['band_width', 'Width of the braking band, along the axis', '47 mm'],
        ['lining_arc_deg', 'Angle that the lining covers, degrees', '120°'],
        ['lining_radius', 'Radius of the lining’s outer face', '128 mm'],
        ['outer_diameter', 'Rotor, outer diameter', '301 mm'],
        ['seat', 'What the rotor measures', 'Centre bore: 61 mm'],
      ].sort(),
    );
    expect(showField('band_width', null)).toBe('unknown');
  });
});
