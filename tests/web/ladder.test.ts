import { describe, expect, it } from 'vitest';
import { niceStep, placeLabels, thicknessScale } from '../../web/src/pictures/ladder';

describe('the thickness scale', () => {
  it('steps in ones, twos and fives', () => {
    expect(niceStep(1.6, 8)).toBeCloseTo(0.2);
    expect(niceStep(3, 8)).toBeCloseTo(0.5);
    expect(niceStep(9, 8)).toBeCloseTo(2);
  });
  it('holds every value and keeps their order', () => {
    const scale = thicknessScale([20, 22, 20.4, 21.1], 300);
    const places = [20, 20.4, 21.1, 22].map(scale.at);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
    expect(places.at(-1)).toBeLessThan(300);
    expect(scale.ticks.length).toBeGreaterThan(3);
  });
  it('still has a length when all values are one', () => {
    const scale = thicknessScale([20, 20], 300);
    expect(scale.high_mm).toBeGreaterThan(scale.low_mm);
    expect(Number.isFinite(scale.at(20))).toBe(true);
  });
});

describe('labels beside the scale', () => {
  const at = (mm: number) => mm * 10;
  it('leaves labels with room where they belong', () => {
    const placed = placeLabels(
      [
        { name: 'a', mm: 3 },
        { name: 'b', mm: 10 },
      ],
      at,
      20,
      200,
    );
    expect(placed.map((rung) => rung.label_at)).toEqual([30, 100]);
  });
  it('pushes close labels apart about their middle and never over the ends', () => {
    const placed = placeLabels(
      [
        { name: 'c', mm: 10.5 },
        { name: 'a', mm: 10 },
        { name: 'b', mm: 10.2 },
        { name: 'end', mm: 20 },
      ],
      at,
      20,
      190,
    );
    const labels = placed.map((rung) => rung.label_at);
    const gaps = labels.slice(1).map((label, i) => label - (labels[i] ?? label));
    expect(gaps).toHaveLength(3);
    for (const gap of gaps) expect(gap).toBeGreaterThanOrEqual(20 - 1e-6);
    expect(placed.map((rung) => rung.name)).toEqual(['a', 'b', 'c', 'end']);
    expect(labels.at(-1)).toBeLessThanOrEqual(190);
  });
});
