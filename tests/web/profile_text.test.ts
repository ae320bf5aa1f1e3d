import { describe, expect, it } from 'vitest';
import { bandPath } from '../../web/src/measure/profile_picture';
import { MOST_POINTS, type ProfileWrong, readProfile, type StylusProfile } from '../../web/src/measure/profile_text';

const profileIn = (text: string, spacing_um: number | null = null): StylusProfile => {
  const read = readProfile(text, spacing_um);
  if (!('profile' in read)) throw new Error(JSON.stringify(read));
  return read.profile;
};

const rows = (n: number, row: (i: number) => string, head = 'x_mm,z_um') =>
  [head, ...Array.from({ length: n }, (_, i) => row(i))].join('\n');

describe('a stylus profile', () => {
  it.each<[string, string]>([
    ['with commas', 'x_mm,z_um\n0,1.5\n0.001,-2\n0.002,3e-1\n'],
    ['with semicolons and quotes', '"x_mm";"z_um"\r\n"0.000";"1.5"\r\n"0.001";"-2"\r\n"0.002";"0.3"'],
    ['with tabs and remarks', '# tester 4\n\n0\t1.5\n0.001\t-2\n0.002\t0.3'],
    ['with blanks under lines of words', 'Measured by A. B.\nCut-off 0.8 mm\n  0   1.5\n 0.001  -2\n 0.002  0.3\n'],
    ['with a byte order mark', '\uFEFF0,1.5\n0.001,-2\n0.002,0.3'],
    ['in other metric units', 'place (um),height [nm]\n0,1500\n1,-2000\n2,300'],
    ['with blanks in its headings', 'X (mm) Z (nm)\n0 1500\n0.001 -2000\n0.002 300'],
    ['with units after a preposition', 'Place in um Height in nm\n0 1500\n1 -2000\n2 300'],
    ['under a remark with units', '# tester 4\n# x_mm,z_nm\n0,1500\n0.001,-2000\n0.002,300'],
    ['with a heading without units last', 'x_um;z_nm\nplace;height\n0;1500\n1;-2000\n2;300'],
    ['in whole micrometres and nanometres', 'x_um,z_nm\n0,1500\n1,-2000\n2,300'],
    ['with one unit for two columns', 'All of it in nm\n0,1.5\n0.001,-2\n0.002,0.3'],
    ['under a cut-off and a traverse', 'Cut-off 0.8 mm, traverse 4.8 mm\n0,1.5\n0.001,-2\n0.002,0.3'],
    ['read backwards', 'x_mm,z_um\n0.002,1.5\n0.001,-2\n0,0.3'],
  ])('%s is read', (_how, text) => {
    expect(profileIn(text)).toEqual({ spacing_um: 1, z_um: [1.5, -2, 0.3] });
  });

  it('of heights alone wants its spacing told', () => {
    expect(readProfile('z_um\n1.5\n-2\n0.3', null)).toEqual({ wants: 'spacing', count: 3 });
    expect(profileIn('z_um\n1.5\n-2\n0.3', 0.5)).toEqual({ spacing_um: 0.5, z_um: [1.5, -2, 0.3] });
    expect(profileIn('z_mm\n0.0015\n-0.002\n0.0003', 0.5).z_um).toEqual([1.5, -2, 0.3]);
  });

  it.each<[string, string]>([
    ['Z [mm]', '0.0015\n-0.002\n0.0003'],
    ['Height (nm)', '1500\n-2000\n300'],
    ['Height in nm', '1500\n-2000\n300'],
    ['# z_nm', '1500\n-2000\n300'],
    ['z_nm\nheights of the face', '1500\n-2000\n300'],
    ['Cut-off 0.8 mm', '1.5\n-2\n0.3'],
  ])('of heights alone takes its unit from "%s"', (heading, heights) => {
    expect(profileIn(`${heading}\n${heights}`, 0.5).z_um).toEqual([1.5, -2, 0.3]);
  });

  it('whose places are rounded to the micrometre is still even', () => {
    const text = rows(2001, (i) => `${(i * 0.0005).toFixed(3)},${(i % 7) / 10}`);
    expect(profileIn(text).spacing_um).toBeCloseTo(0.5, 3);
  });

  it('of as many points as are taken is read, and of one more is not', () => {
    const text = (n: number) => '1\n2\n'.repeat(n / 2);
    expect(profileIn(text(MOST_POINTS), 0.5).z_um).toHaveLength(MOST_POINTS);
    expect(readProfile(`${text(MOST_POINTS)}3`, 0.5)).toEqual({ wrong: 'too_long', line: 0 });
  });

  it.each<[string, string, ProfileWrong, number]>([
    ['nothing', ' \n\n', 'empty', 0],
    ['a remark', '# x_mm,z_um', 'empty', 0],
    ['a letter to somebody', 'Dear sir,\nthe rotor is rough.', 'letters', 0],
    ['a word among the numbers', '0,1\n0.001,rough\n0.002,3', 'letters', 2],
    ['a number that is none', '0,1\n0.001,1-2\n0.002,3', 'letters', 2],
    ['a gap', '0,1\n0.001,\n0.002,3', 'letters', 2],
    ['decimal commas beside semicolons', 'x_mm;z_um\n0,000;1,5\n0,001;2,5', 'decimal_commas', 2],
    ['decimal commas beside blanks', '0,000 1,5\n0,001 2,5', 'decimal_commas', 1],
    ['decimal commas beside commas', '0,000,1,5\n0,001,2,5', 'decimal_commas', 1],
    ['decimal commas of heights alone', '1,52\n2,51\n-0,30\n1,11', 'decimal_commas', 0],
    ['decimal commas of heights that rise', '0,12\n0,31\n1,05', 'decimal_commas', 0],
    ['inches of heights alone', 'z (in)\n0.001\n0.002', 'inches', 0],
    ['inches of heights alone in words', 'Height in inches\n0.001\n0.002', 'inches', 0],
    ['inches by a heading with blanks', 'X in Z uin\n0 1\n0.001 2', 'inches', 0],
    ['inches of both at once', 'Everything here is inches\n0,1\n0.001,2', 'inches', 0],
    ['inches by a remark', '# x_in,z_uin\n0,1\n0.001,2', 'inches', 0],
    ['inches by the heading', 'x_in,z_uin\n0,1\n0.001,2', 'inches', 0],
    ['inches by a mark', '0,1\n0.001",2', 'inches', 2],
    ['three columns', '1,0,1.5\n2,0.001,2.5', 'columns', 1],
    ['a column that ends', '0,1.5\n0.001,2\n3.5', 'columns', 3],
    ['places that jump', '0,1.5\n0.001,2\n0.015,3\n0.016,1', 'uneven', 0],
    ['places that stand', '0.5,1.5\n0.5,2\n0.5,3', 'uneven', 0],
    ['one point', '0.5,1.5', 'uneven', 0],
    ['heights in nanometres', '0,1500\n0.001,-2000\n0.002,300', 'heights', 0],
  ])('that is %s is refused for what it is', (_what, text, wrong, line) => {
    expect(readProfile(text, 0.5)).toEqual({ wrong, line });
  });

  it('is drawn as one band about its mean, there and back', () => {
    const drawn = { x_mm: [0, 1], low_um: [-1, -2], high_um: [1, 2] };
    expect(
      bandPath(
        drawn,
        (mm) => 10 * mm,
        (um) => -um,
      ),
    ).toBe('M0.0 -1.0L10.0 -2.0L10.0 2.0L0.0 1.0Z');
    expect(bandPath({ x_mm: [], low_um: [], high_um: [] }, Number, Number)).toBe('');
  });
});
