import { describe, expect, it } from 'vitest';
import { colour, lightness, linear } from './ramp';

describe('ramp', () => {
  it('darkens all the way', () => {
    for (let i = 1; i <= 100; i++) expect(lightness(i / 100)).toBeLessThan(lightness((i - 1) / 100));
  });

  it('stays at its ends and survives what is no number', () => {
    expect(colour(-1)).toBe(colour(0));
    expect(colour(2)).toBe(colour(1));
    expect(colour(Number.NaN)).toBe(colour(0));
  });

  it('has the same lightness as linear light', () => {
    for (const at of [0, 0.3, 0.7, 1]) {
      const [r, g, b] = linear(at);
      const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
      const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
      const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
      expect(0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s).toBeCloseTo(lightness(at), 1);
    }
  });
});
