import { describe, expect, it } from 'vitest';
import type { Competence, Evidence } from '../../web/src/api/schema';
import { lastPlace, newestFirst, reached, shownCompetences, signedCount } from '../../web/src/competences/levels';

const shown = (level: Evidence['level'], at: string, rest: Partial<Evidence> = {}): Evidence => ({
  id: at,
  competence_id: 'c',
  person_id: 'p',
  level,
  note: '',
  at,
  ...rest,
});
const competence = (id: string, position: number, active = true): Competence => ({
  id,
  name: id,
  words: '',
  position,
  active,
});
const here = { person_id: 'p', competence_id: 'c' };

describe('what was shown', () => {
  it('counts by the highest level, the newest of them, and not what was withdrawn or another’s', () => {
    const all = [
      shown('alone', '2026-09-01'),
      shown('alone', '2026-09-03'),
      shown('seen', '2026-09-04'),
      shown('signed', '2026-09-05', { withdrawn_at: '2026-09-06' }),
      shown('signed', '2026-09-05', { person_id: 'q' }),
    ];
    expect(reached(all, here)?.at).toBe('2026-09-03');
    expect(reached([...all].reverse(), here)?.at).toBe('2026-09-03');
    expect(reached([], here)).toBeNull();
  });

  it('is told newest first', () => {
    expect(newestFirst([shown('seen', '2026-09-01'), shown('alone', '2026-09-02')]).map(({ at }) => at)).toEqual([
      '2026-09-02',
      '2026-09-01',
    ]);
  });
});

describe('the list of competences', () => {
  it('keeps what is no longer in use only where somebody has shown it', () => {
    const all = [competence('late', 9), competence('c', 2, false), competence('gone', 3, false), competence('one', 1)];
    expect(shownCompetences(all, [shown('seen', '2026-09-01')]).map(({ id }) => id)).toEqual(['one', 'c', 'late']);
    expect(shownCompetences(all, []).map(({ id }) => id)).toEqual(['one', 'late']);
  });

  it('counts what is signed, and puts a new one at its end', () => {
    const list = [competence('c', 4), competence('d', 2)];
    expect(signedCount(list, [shown('signed', '1'), shown('alone', '2', { competence_id: 'd' })], 'p')).toBe(1);
    expect(lastPlace(list)).toBe(5);
    expect(lastPlace([])).toBe(1);
  });
});
