import { describe, expect, it } from 'vitest';
import { contradiction, stackWindow } from '../../web/src/shop/arbor_rules';
import { cuttingTexts, readCutting } from '../../web/src/shop/cutting_texts';
import { numberList, textOfNm } from '../../web/src/shop/numbers';

describe('speeds and feeds typed in one line', () => {
  it.each([
    ['60 90 130', [60, 90, 130]],
    ['130, 60, 90', [60, 90, 130]],
    ['60,90,130', [60, 90, 130]],
    ['0,05; 0,1; 0,15', [0.05, 0.1, 0.15]],
    ['0.05 0.05', [0.05]],
    ['', []],
  ])('reads %s', (text, values) => {
    expect(numberList(text)).toEqual({ values, wrong: [] });
  });
  it('names what is no number, nought and less than nought among it', () => {
    expect(numberList('0.05,0.1').values).toEqual([0.05, 0.1]);
    expect(numberList('80 100,150')).toEqual({ values: [80], wrong: ['100,150'] });
    expect(numberList('0,125').values).toEqual([0.125]);
    expect(numberList('60 fast 0 -5')).toEqual({ values: [60], wrong: ['fast', '0', '-5'] });
  });
});

describe('an arbor', () => {
  const arbor = (thread_start_mm: number | null, tip_mm: number | null, nut_engagement_mm: number | null) => ({
    thread_start_mm,
    tip_mm,
    nut_engagement_mm,
  });
  it('holds a stack that reaches the thread and leaves the nut its own', () => {
    expect(stackWindow(arbor(150, 230, 20))).toEqual({ least_mm: 150, most_mm: 210 });
    expect(contradiction(arbor(150, 230, 20))).toBeNull();
    expect(contradiction(arbor(150, 170, 20))).toBeNull();
  });
  it('has no tip before its thread, and a thread that is longer than the nut needs', () => {
    expect(contradiction(arbor(150, 150, 0))).toBe('tip_before_thread');
    expect(contradiction(arbor(150, 120, 5))).toBe('tip_before_thread');
    expect(contradiction(arbor(150, 160, 20))).toBe('no_room_for_nut');
    expect(stackWindow(arbor(150, 160, 20))).toBeNull();
  });
  it('is not judged by what nobody has measured', () => {
    expect(contradiction(arbor(null, 100, 20))).toBeNull();
    expect(stackWindow(arbor(150, null, 20))).toBeNull();
  });
});

describe('rules of turning as typed', () => {
  const rules = {
    rough_max_um: 250,
    finish_min_um: 50,
    finish_max_um: 100,
    depth_basis: 'common practice, no source',
    ra_target_um: 1.5,
    ra_factor: 1.5,
    ra_basis: 'common practice, no source',
    mount_runout_max_um: 50,
    mount_basis: 'common practice, no source',
  };
  it('come back as they were', () => {
    expect(readCutting(cuttingTexts(rules))).toEqual({ rules, wrong: {} });
  });
  it('take a decimal comma', () => {
    expect(readCutting({ ...cuttingTexts(rules), ra_factor: '1,4' }).rules?.ra_factor).toBe(1.4);
  });
  it('are refused beside the field that is wrong', () => {
    const wrong = (change: object) => readCutting({ ...cuttingTexts(rules), ...change }).wrong;
    expect(wrong({ rough_max_um: 'much' })).toEqual({ rough_max_um: 'number' });
    expect(wrong({ finish_min_um: '120' })).toEqual({ finish_min_um: 'least_over_most' });
    expect(wrong({ ra_factor: '0.9' })).toEqual({ ra_factor: 'under_one' });
    expect(wrong({ rough_max_um: '0,25' })).toEqual({ rough_max_um: 'in_um' });
    expect(wrong({ ra_target_um: '0,8' })).toEqual({});
    expect(wrong({ mount_basis: ' ' })).toEqual({ mount_basis: 'basis' });
  });
});

describe('a length that is shown to be changed', () => {
  it('stands in the unit of the field without needless noughts', () => {
    expect(textOfNm(25_400_000, 'in')).toBe('1');
    expect(textOfNm(150_500_000, 'mm')).toBe('150.5');
    expect(textOfNm(null, 'mm')).toBe('');
  });
});
