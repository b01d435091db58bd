// Lines of revolved shapes on paper: points are radius and height in metres.

export interface Point {
  r: number;
  z: number;
}

export const points = (r: readonly number[], z: readonly number[]): Point[] =>
  z.slice(0, Math.min(r.length, z.length)).map((height, i) => ({ r: r[i]!, z: height }));

/**
 * The line that lies inside an outline by the given depth at each point, along
 * the normal of the outline. The outline runs from the bottom up, so that the
 * inside is on its left. A point that would cross the axis stops at it.
 */
export function inside(outline: readonly Point[], depth: readonly number[]): Point[] {
  return outline.map((p, i) => {
    const a = outline[Math.max(0, i - 1)]!;
    const b = outline[Math.min(outline.length - 1, i + 1)]!;
    const dr = b.r - a.r;
    const dz = b.z - a.z;
    const length = Math.hypot(dr, dz);
    if (length === 0) return p;
    const d = depth[i] ?? 0;
    return { r: Math.max(0, p.r - (d * dz) / length), z: p.z + (d * dr) / length };
  });
}

/** The index of the point nearest in height; the outermost of those that are equally near. */
export function nearest(z: readonly number[], r: readonly number[], height: number): number {
  let best = 0;
  for (let i = 1; i < z.length; i++) {
    const gain = Math.abs(z[best]! - height) - Math.abs(z[i]! - height);
    if (gain > 1e-9 || (gain > -1e-9 && (r[i] ?? 0) > (r[best] ?? 0))) best = i;
  }
  return best;
}

/** Length-weighted mean and least of a quantity along the wall between two heights. */
export function between(
  z: readonly number[],
  s: readonly number[],
  value: readonly number[],
  from: number,
  to: number,
): { mean: number; least: number } | null {
  let sum = 0;
  let length = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < z.length; i++) {
    const middle = (z[i]! + z[i + 1]!) / 2;
    if (middle < from || middle > to) continue;
    const ds = Math.abs(s[i + 1]! - s[i]!);
    sum += ((value[i]! + value[i + 1]!) / 2) * ds;
    length += ds;
    least = Math.min(least, value[i]!, value[i + 1]!);
  }
  return length > 0 ? { mean: sum / length, least } : null;
}
