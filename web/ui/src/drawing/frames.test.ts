import { describe, expect, it } from 'vitest';
import type { Playback } from '../api/types';
import { byLogarithm, neighbour, shapeAt, span, walls } from './frames';

const blow: Playback = {
  frames: [
    { time: 0, pressure: 0, z: [0.1, 0], r: [0, 0.01], wall: [0.004, 0.003] },
    { time: 0.1, pressure: 2e5, z: [0.2, 0], r: [0, 0.05], wall: [0.002, 0.001] },
  ],
  mould: { z: [], r: [] },
  rod: [
    { time: 0, tip: 0.1 },
    { time: 0.2, tip: 0.3 },
  ],
};

describe('the blow between its frames', () => {
  it('lies half-way at half the time', () => {
    const s = shapeAt(blow, 0.05)!;
    expect(s.pressure).toBeCloseTo(1e5);
    expect(s.r[1]).toBeCloseTo(0.03);
    expect(s.z[0]).toBeCloseTo(0.15);
    expect(s.wall[0]).toBeCloseTo(0.003);
    expect(s.tip).toBeCloseTo(0.15);
  });
  it('stays at its ends', () => {
    expect(shapeAt(blow, -1)!.r[1]).toBe(0.01);
    expect(shapeAt(blow, 1)!.r[1]).toBe(0.05);
    expect(shapeAt(blow, 1)!.tip).toBeCloseTo(0.3);
    expect(span(blow)).toEqual([0, 0.1]);
    expect(shapeAt({ frames: [], mould: { z: [], r: [] }, rod: [] }, 0)).toBeNull();
  });
  it('steps from frame to frame', () => {
    expect(neighbour(blow, 0.04, 1)).toBe(0.1);
    expect(neighbour(blow, 0.04, -1)).toBe(0);
    expect(neighbour(blow, 0.1, 1)).toBe(0.1);
  });
  it('knows its walls', () => expect(walls(blow)).toEqual([0.001, 0.004]));
  it('has colours by the logarithm, and none beyond their ends', () => {
    expect(byLogarithm(0.001, 0.001, 0.004)).toBe(0);
    expect(byLogarithm(0.002, 0.001, 0.004)).toBeCloseTo(0.5);
    expect(byLogarithm(0.009, 0.001, 0.004)).toBe(1);
    expect(byLogarithm(0.0001, 0.001, 0.004)).toBe(0);
    expect(byLogarithm(0.002, 0.002, 0.002)).toBe(0);
  });
});
