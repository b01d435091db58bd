import { describe, expect, it } from 'vitest';
import { between, inside, nearest, points } from './outline';

describe('inside', () => {
  it('moves a straight wall towards the axis', () => {
    const line = inside(points([50, 50, 50], [0, 10, 20]), [1, 1, 1]);
    for (const p of line) expect(p.r).toBeCloseTo(49, 12);
  });

  it('moves a flat base up', () => {
    const line = inside(points([0, 10, 20], [0, 0, 0]), [2, 2, 2]);
    for (const [i, p] of line.entries()) {
      expect(p.z).toBeCloseTo(2, 12);
      expect(p.r).toBeCloseTo(10 * i, 12);
    }
  });

  it('stays at the distance on a circle and never crosses the axis', () => {
    const n = 200;
    const angle = Array.from({ length: n + 1 }, (_, i) => -Math.PI / 2 + (Math.PI * i) / n);
    const circle = points(
      angle.map((a) => 30 * Math.cos(a)),
      angle.map((a) => 30 * Math.sin(a)),
    );
    const line = inside(circle, new Array<number>(n + 1).fill(4));
    for (const p of line.slice(1, -1)) expect(Math.hypot(p.r, p.z)).toBeCloseTo(26, 2);
    for (const p of inside(circle, new Array<number>(n + 1).fill(60))) expect(p.r).toBeGreaterThanOrEqual(0);
  });

  it('keeps a point that stands on its neighbours', () => {
    expect(inside(points([5, 5], [1, 1]), [1, 1])).toEqual(points([5, 5], [1, 1]));
  });
});

describe('nearest', () => {
  it('finds the height, and on a flat the outermost point', () => {
    expect(nearest([0, 10, 20], [1, 1, 1], 12)).toBe(1);
    expect(nearest([0, 0, 0, 30], [0, 10, 20, 20], 0)).toBe(2);
    expect(nearest([0, 10], [1, 1], 99)).toBe(1);
  });
});

describe('between', () => {
  it('weighs by length along the wall', () => {
    const z = [0, 10, 40];
    const got = between(z, z, [1, 1, 3], 0, 40)!;
    expect(got.mean).toBeCloseTo((10 * 1 + 30 * 2) / 40, 12);
    expect(got.least).toBe(1);
    expect(between(z, z, [1, 1, 3], 100, 200)).toBeNull();
  });
});
