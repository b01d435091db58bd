// Fields along the wall of the bottle, for the colour of the drawing.
import type { Axis, Plot } from '../api/types';
import { extent, valueAt } from './plot';

export interface Along {
  key: string;
  name: string;
  axis: Axis;
  range: readonly [number, number]; // SI
  at: (s: number) => number | null; // SI, at an arc from the gate, m
  stale: boolean;
}

/** Every curve of the traces that runs along the arc from the gate. */
export function along(traces: readonly { plot: Plot; stale: boolean }[]): Along[] {
  return traces.flatMap(({ plot, stale }) =>
    plot.x.label !== 'arc from the gate'
      ? []
      : (plot.series ?? []).flatMap((s, i) => {
          const [x, y] = [s.x ?? [], s.y ?? []];
          const range = extent([y]);
          if (!range || s.points) return [];
          const own = (plot.series ?? []).length > 1 ? `: ${s.name}` : '';
          return [
            {
              key: `${plot.key} ${i}`,
              name: `${plot.title}${own}`,
              axis: plot.y,
              range,
              at: (at: number) => valueAt(x, y, Math.min(x.at(-1) ?? 0, Math.max(x[0] ?? 0, at))),
              stale,
            },
          ];
        }),
  );
}
