import { describe, expect, it } from 'vitest';
import { isUpper, marginBeyond, marginPercent, marginPlace, ticks, wallTop } from './scale';

describe('ticks', () => {
  it('are round and reach no further than the top', () => {
    expect(ticks(0.00065, 4).map((t) => Math.round(t * 1e6))).toEqual([0, 200, 400, 600]);
    expect(ticks(305, 6)).toEqual([0, 100, 200, 300]);
    expect(ticks(0, 4)).toEqual([0]);
  });
});

describe('wallTop', () => {
  it('keeps the body readable beside a thick neck', () => {
    expect(wallTop([0.28, 0.28, 0.29, 0.3, 0.93])).toBeCloseTo(0.725, 12);
    expect(wallTop([0.28, 0.3])).toBeCloseTo(0.324, 12);
    expect(wallTop([])).toBe(0);
  });
});

describe('margins', () => {
  it('fall from left to right with the limit in place', () => {
    const places = [-100, -25, -5, 0, 5, 50, 400, 1e6].map(marginPlace);
    expect(places[0]).toBe(0);
    expect(places.at(-1)).toBe(1);
    for (let i = 1; i < places.length; i++) expect(places[i]!).toBeGreaterThanOrEqual(places[i - 1]!);
    expect(marginBeyond(-30)).toBe(true);
    expect(marginBeyond(30)).toBe(false);
  });

  it('are positive on the good side of either limit', () => {
    expect(marginPercent(9, 10, 'max')).toBeCloseTo(10, 12);
    expect(marginPercent(9, 10, 'min')).toBeCloseTo(-10, 12);
    expect(marginPercent(-3, -2, 'max')).toBeCloseTo(50, 12);
    expect(marginPercent(1, 0, 'max')).toBeNull();
    expect(isUpper('max')).toBe(true);
    expect(isUpper('min')).toBe(false);
  });
});
