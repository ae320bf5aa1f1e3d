import { describe, expect, it } from 'vitest';
import { columnsOf, KINDS, kindOf, placesOf, spacerIs } from '../../web/src/pegboard/columns';
import { blockOf, headerOf, headingOf, piecesOfBlock } from '../../web/src/pegboard/paste';
import { columnOfField, pieceOf, type Row, rowAfter, rowOf, stateOf, unitOf, wants } from '../../web/src/pegboard/rows';
import { nextSpot, spotBefore, spotInRow } from '../../web/src/pegboard/walk';

const row = (cells: Row['cells'], rest: Partial<Row> = {}): Row => ({ id: 'r', cells, ...rest });
const cone = { name: 'K7', kind: 'cone', hook: 'B4', unit: 'mm', bore: '25.4', length: '40', small: '55', large: '75' };

describe('words for kinds', () => {
  it.each([
    ['cone', 'cone'],
    ['Co', 'cone'],
    ['cl', 'clamp'],
    ['double taper', 'taper'],
    ['spr', 'spring'],
    ['spacers', 'spacer'],
    ['bell', 'clamp'],
    ['n', 'nut'],
  ])('%s is a %s', (text, kind) => expect(kindOf(text)).toBe(kind));
  it('says nothing of a beginning that two kinds share, and of other words', () => {
    expect(kindOf('c')).toBeNull();
    expect(kindOf('sp')).toBeNull();
    expect(kindOf('washer')).toBeNull();
  });
  it('reads what a spacer is by whole words and first letters', () => {
    expect(spacerIs('d')).toEqual({ damping: true, weighted: false });
    expect(spacerIs('weighted and damping')).toEqual({ damping: true, weighted: true });
    expect(spacerIs('')).toEqual({ damping: false, weighted: false });
    expect(spacerIs('heavy')).toBeNull();
  });
});

describe('a row of the grid', () => {
  it('has as many places whatever its kind, each column of the kind among them once', () => {
    for (const kind of KINDS) {
      const places = placesOf(kind).filter((place) => place !== null);
      expect(placesOf(kind)).toHaveLength(12);
      expect([...places].sort()).toEqual([...columnsOf(kind)].sort());
    }
  });
  it('is complete when its kind is asked nothing more', () => {
    expect(stateOf(row({}))).toBe('empty');
    expect(stateOf(row({ name: 'K7' }))).toBe('incomplete');
    expect(wants(row({ ...cone, large: '' }))).toEqual({ missing: ['large'], wrong: [] });
    expect(wants(row({ ...cone, bore: 'wide' })).wrong).toEqual(['bore']);
    expect(stateOf(row(cone))).toBe('complete');
    expect(stateOf(row({ ...cone, hook: '' }))).toBe('complete');
  });
  it('is saved until one of its cells changes', () => {
    expect(stateOf(row(cone, { saved: { ...cone } }))).toBe('saved');
    expect(stateOf(row({ ...cone, hook: 'B5' }, { saved: { ...cone } }))).toBe('complete');
  });
  it('begins with the kind, unit and bore of the row above, and is still empty', () => {
    const next = rowAfter('s', row(cone), 'in');
    expect(next.cells).toEqual({ kind: 'cone', unit: 'mm', bore: '25.4' });
    expect(stateOf(next)).toBe('empty');
    expect(rowAfter('s', null, 'in').cells).toEqual({ unit: 'in' });
  });
  it('becomes a piece with the dimensions of its kind alone', async () => {
    const read = async (text: string, unit: string) => Number(text.replace(',', '.')) * (unit === 'mm' ? 1e6 : 25.4e6);
    const piece = await pieceOf(row({ ...cone, large: '75,5', ring_inner: '9' }), 'mm', read);
    expect(piece).toMatchObject({ kind: 'cone', small_nm: 55e6, large_nm: 75.5e6, ring_inner_nm: null, unit: 'mm' });
    const spring = await pieceOf(
      row({ name: 'S', kind: 'spring', unit: 'in', bore: '1', solid: '0.5', free: '2' }),
      'mm',
      read,
    );
    expect(spring.length_nm).toBe(2 * 25.4e6);
    expect(rowOf(piece).cells).toMatchObject({ bore: '25.4', large: '75.5', unit: 'mm' });
    expect(stateOf(rowOf(piece))).toBe('saved');
  });
  it('knows which cell a refusal speaks of', () => {
    expect(columnOfField('small_nm')).toBe('small');
    expect(columnOfField('piece.damping')).toBe('is');
    expect(columnOfField('id')).toBeNull();
  });
});

describe('walking the grid', () => {
  const rows = [row(cone), row({ name: 'N1', kind: 'nut', unit: 'mm' })];
  it('passes over what a kind is not asked for', () => {
    expect(nextSpot(rows, { row: 0, place: 7 })).toEqual({ row: 0, place: 10 });
    expect(nextSpot(rows, { row: 1, place: 5 })).toEqual({ row: 1, place: 10 });
  });
  it('goes on in the next row, past the last one too', () => {
    expect(nextSpot(rows, { row: 1, place: 11 })).toEqual({ row: 2, place: 0 });
  });
  it('goes back, and up and down to the nearest cell that can be typed in', () => {
    expect(spotBefore(rows, { row: 1, place: 10 })).toEqual({ row: 1, place: 5 });
    expect(spotBefore(rows, { row: 1, place: 0 })).toBeNull();
    expect(spotInRow(rows, 1, 7)).toEqual({ row: 1, place: 5 });
    expect(spotInRow(rows, 2, 7)).toBeNull();
  });
});

describe('a pasted block', () => {
  it('is parted by tabs, semicolons or commas, quotes kept together', () => {
    expect(blockOf('a\tb,1\r\nc\td\n')).toEqual([
      ['a', 'b,1'],
      ['c', 'd'],
    ]);
    expect(blockOf('sep=;\n"x;y";21,5\n')).toEqual([['x;y', '21,5']]);
    expect(blockOf('x,"say ""a"", b",3')).toEqual([['x', 'say "a", b', '3']]);
    expect(blockOf('1/2"\t3')).toEqual([['1/2"', '3']]);
  });
  it('knows headings by their words, with the unit that they name', () => {
    expect(headingOf('Bore (in)')).toEqual({ column: 'bore', unit: 'in' });
    expect(headingOf('small_mm')).toEqual({ column: 'small', unit: 'mm' });
    expect(headingOf('runout µm')).toEqual({ column: 'runout_um', unit: null });
    expect(headingOf('Damping')).toEqual({ column: 'is', unit: null, yes: 'damping' });
    expect(headingOf('colour')).toBeNull();
  });
  it('takes its first row for headings only where it reads as such', () => {
    expect(headerOf(['Name', 'Kind', 'Bore'])).not.toBeNull();
    expect(headerOf(['K7', 'cone', '25.4'])).toBeNull();
  });
  it('with headings may have any order, and columns of its own are left aside', () => {
    const { headed, rows } = piecesOfBlock(
      blockOf('Kind;colour;Name;Bore (in);Length;Damping\nspacer;red;D1;1;0,75;x'),
    );
    expect(headed).toBe(true);
    expect(rows).toEqual([{ kind: 'spacer', name: 'D1', bore: '1', length: '0,75', unit: 'in', is: 'damping' }]);
  });
  it('without headings stands in the order of the grid', () => {
    const { headed, rows } = piecesOfBlock(blockOf('K7\tcone\tB4\tmm\t25,4\t40\t55\t75'));
    expect(headed).toBe(false);
    expect(rows).toEqual([{ ...cone, bore: '25,4' }]);
    expect(stateOf(row(rows[0] ?? {}))).toBe('complete');
  });
});

describe('units', () => {
  it.each([
    ['mm', 'mm'],
    ['MM', 'mm'],
    ['in', 'in'],
    ['inch', 'in'],
    ['"', 'in'],
  ])('%s is %s', (text, unit) => expect(unitOf(text)).toBe(unit));
  it('are no other words', () => expect(unitOf('cm')).toBeNull());
});
