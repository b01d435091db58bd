import { describe, expect, it } from 'vitest';
import type { Geometry } from '../api/types';
import { frame, layout } from './layout';

// A bottle of 100 mm by 300 mm with a preform of 26 mm.
const g = {
  bottle: { r: [0, 0.05, 0.05, 0.013], height: 0.3, ledge_z: 0.28, finish_od: 0.026 },
  preform: { ro: [0.013], z: [0.1] },
} as unknown as Geometry;

describe('layout', () => {
  it('keeps shapes and chart inside the frame at any width', () => {
    for (const width of [380, 403, 525, 584, 820, 1005, 1400]) {
      const at = layout(width, 330, g);
      expect(at.scale * 0.3, `height of the bottle, ${width}`).toBeGreaterThan(100);
      expect(at.preformAxis - at.scale * 0.013).toBeGreaterThan(frame);
      expect(at.bottleAxis - at.bottleRadius).toBeGreaterThan(at.preformAxis + at.scale * 0.013);
      expect(at.chartRight).toBeGreaterThan(at.bottleAxis + at.bottleRadius);
      expect(at.chartRight, `${width}`).toBeLessThanOrEqual(width - frame);
    }
  });

  it('goes without the chart rather than with shapes too small to read', () => {
    expect(layout(403, 330, g).chart).toBe(false);
    expect(layout(525, 330, g).chart).toBe(true);
  });
});
