import { expect, it } from 'vitest';
import type { Geometry } from '../api/types';
import { place, sectionDims } from './dimensions';
import { frame, type Layout } from './layout';

const g = { bottle: { height: 0.3 } } as unknown as Geometry;
const at = { base: 360, scale: 1000, bottleAxis: 200, bottleRadius: 50 } as unknown as Layout; // 1 px a mm

it.each([
  [60, 190],
  [20, 40],
  [5, 10],
  [250, 270],
])('planes at %d and %d mm: the masses of the sections stand clear of each other, in order', (low, high) => {
  const zone = (name: string, from: number, to: number) => ({
    name,
    from: from / 1e3,
    to: to / 1e3,
    mass: '10.21 g',
  });
  const texts = sectionDims(
    [zone('base', 0, low), zone('panel', low, high), zone('shoulder', high, 300)],
    g,
    at,
  ).map(place);
  for (let i = 0; i + 1 < texts.length; i++) {
    const [below, above] = [texts[i]!, texts[i + 1]!];
    expect(below.y - above.y).toBeGreaterThanOrEqual((below.wide + above.wide) / 2 - 1e-9);
  }
  // None runs out of the frame; the middle one stays where it is measured unless those above need its room.
  const shoulder = texts[2]!;
  expect(shoulder.y - shoulder.wide / 2).toBeGreaterThan(frame);
  const measured = 360 - (low + high) / 2;
  const room = measured - texts[1]!.wide / 2 - shoulder.wide > frame + 4;
  if (room) expect(texts[1]!.y).toBeCloseTo(measured, 9);
  else expect(texts[1]!.y).toBeGreaterThan(measured);
});
