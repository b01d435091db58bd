import { describe, expect, it } from 'vitest';
import { colour, lightness } from './ramp';

describe('ramp', () => {
  it('darkens all the way', () => {
    for (let i = 1; i <= 100; i++) expect(lightness(i / 100)).toBeLessThan(lightness((i - 1) / 100));
  });

  it('stays at its ends and survives what is no number', () => {
    expect(colour(-1)).toBe(colour(0));
    expect(colour(2)).toBe(colour(1));
    expect(colour(Number.NaN)).toBe(colour(0));
  });
});
