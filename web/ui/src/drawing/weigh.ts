// What the sections of a bottle weigh when it is cut at other heights.
import type { Bottle, Geometry } from '../api/types';

type Zone = NonNullable<Geometry['zones']>[number];

type Wall = Pick<Bottle, 'r' | 'z' | 'ri' | 'zi' | 'wall'>;

/**
 * The plastic of the wall from the gate to the last place at a height, m³: between neighbouring points the
 * wall over the area that its middle sweeps round the axis (Pappus and Guldin).
 */
export function plastic(b: Wall, height: number): number {
  let last = b.z.length - 1;
  let part = 0; // of the stretch behind the last whole one
  for (let i = 0; i + 1 < b.z.length; i++) {
    const [from, to] = [b.z[i]!, b.z[i + 1]!];
    if (from === to || (height - from) * (height - to) > 0 || height === to) continue;
    last = i;
    part = (height - from) / (to - from);
  }
  let sum = 0;
  for (let i = 0; i < last; i++) sum += stretch(b, i, 1);
  return last + 1 < b.z.length ? sum + stretch(b, last, part) : sum;
}

function stretch(b: Wall, i: number, part: number): number {
  const middle = (k: number) => [(b.r[k]! + b.ri[k]!) / 2, (b.z[k]! + (b.zi ?? b.z)[k]!) / 2] as const;
  const [[r0, z0], [r1, z1]] = [middle(i), middle(i + 1)];
  const mean = (a: number, c: number) => a + ((c - a) * part) / 2;
  return 2 * Math.PI * mean(r0, r1) * mean(b.wall[i]!, b.wall[i + 1]!) * Math.hypot(r1 - r0, z1 - z0) * part;
}

/**
 * The sections when their planes stand at other heights than they were weighed at: what lies between goes
 * from one section to the other. The density in kg/m³; heights in m, one a plane.
 */
export function weighed(
  b: Bottle,
  zones: readonly Zone[],
  heights: readonly number[],
  density: number,
): Zone[] {
  const out = zones.map((z) => ({ ...z }));
  (b.planes ?? []).forEach((plane, i) => {
    const z = heights[i] ?? plane.z;
    const [below, above] = [out[i], out[i + 1]];
    if (z === plane.z || !below || !above) return;
    const grams = 1e3 * density * (plastic(b, z) - plastic(b, plane.z));
    below.grams += grams;
    above.grams -= grams;
    below.to = above.from = z;
  });
  return out;
}
