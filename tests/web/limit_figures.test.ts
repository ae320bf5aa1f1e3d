import { describe, expect, it } from 'vitest';
import { finishText } from '../../web/src/limits/figures';

describe('a finish as it is typed', () => {
  it('takes a bare number in micrometres or microinches', () => {
    expect(finishText('1.5', 'mm')).toBe('1.5 um');
    expect(finishText('1,5', 'mm')).toBe('1.5 um');
    expect(finishText('60', 'in')).toBe('0.000060 in');
    expect(finishText('125', 'in')).toBe('0.000125 in');
  });
  it('lets a unit behind the number rule', () => {
    expect(finishText('60 µin', 'mm')).toBe('0.000060 in');
    expect(finishText('15.5 uin', 'mm')).toBe('0.0000155 in');
    expect(finishText('1.5 um', 'in')).toBe('1.5 um');
  });
  it('leaves to the shop what it does not know', () => {
    expect(finishText('smooth', 'mm')).toBe('smooth');
  });
});
