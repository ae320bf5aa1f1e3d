import { describe, expect, it } from 'vitest';
import { idMaker } from '../../web/src/api/ids';

const maker = (now: () => number) => idMaker({ now, random: (bytes) => bytes.fill(0xff) });

describe('ids that the page makes', () => {
  it('carry the time, the version and the variant of RFC 9562', () => {
    // RFC 9562, appendix A.6: the time 0x017F22E279B0 ms.
    expect(maker(() => 0x017f22e279b0)()).toMatch(/^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });

  it('sort in the order of making, even 5000 within a millisecond and with a clock that steps back', () => {
    const times = [1000, ...Array.from({ length: 5000 }, () => 1000), 900, 900, 1001];
    const next = maker(() => times.shift() ?? 2000);
    const made = Array.from({ length: 5004 }, next);
    expect([...made].sort()).toEqual(made);
    expect(new Set(made).size).toBe(made.length);
  });
});
