// A buckling mode in section and plan: what the wall does at crest and trough.
import type { Buckling } from '../api/types';
import type { Point } from './outline';

const list = (v: readonly number[] | null | undefined) => v ?? [];

/** The meridian of the wall, moved by the share of the amplitude (1 crest, -1 trough, 0 unloaded). */
export function section(b: Buckling, amplitude: number, share: number): Point[] {
  return list(b.r).map((r, i) => ({
    r: r + share * amplitude * (list(b.u)[i] ?? 0),
    z: (list(b.z)[i] ?? 0) + share * amplitude * (list(b.w)[i] ?? 0),
  }));
}

/** The node that moves out most. */
export function widest(b: Buckling): number {
  let best = 0;
  list(b.u).forEach((u, i) => {
    if (Math.abs(u) > Math.abs(list(b.u)[best] ?? 0)) best = i;
  });
  return best;
}

/** The circle of a node as the waves bend it, from the axis. */
export function plan(b: Buckling, node: number, amplitude: number, parts = 240): { x: number; y: number }[] {
  const [r, u, v] = [list(b.r)[node] ?? 0, list(b.u)[node] ?? 0, list(b.v)[node] ?? 0];
  return Array.from({ length: parts + 1 }, (_, k) => {
    const angle = (2 * Math.PI * k) / parts;
    const out = r + amplitude * u * Math.cos(b.n * angle);
    const side = amplitude * v * Math.sin(b.n * angle);
    return {
      x: out * Math.cos(angle) - side * Math.sin(angle),
      y: out * Math.sin(angle) + side * Math.cos(angle),
    };
  });
}
