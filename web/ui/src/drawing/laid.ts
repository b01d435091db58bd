// A tall shape laid on its side: along the width of a trace it is drawn larger, at one scale still.
import type { Plot } from '../api/types';
import { extent, isShape } from './plot';

const tall = 1.5; // times as high as wide

/** The plot of a tall shape with its height to the right and its radius upwards; null for any other plot. */
export function laid(plot: Plot): Plot | null {
  if (!isShape(plot)) return null;
  const list = plot.series ?? [];
  const span = (all: readonly (readonly number[])[]) => {
    const e = extent(all);
    return e ? e[1] - e[0] : 0;
  };
  const [across, up] = [span(list.map((s) => s.x ?? [])), span(list.map((s) => s.y ?? []))];
  if (!(up > tall * across)) return null;
  return { ...plot, x: plot.y, y: plot.x, series: list.map((s) => ({ ...s, x: s.y, y: s.x })) };
}

/** How high a box of a width has to be for ranges at one scale; at least enough to be read. */
export const heightFor = (width: number, x: number, y: number): number =>
  Math.max(80, x > 0 ? (width * y) / x : 0);
