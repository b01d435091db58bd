// Fields along the wall of the bottle, for the colour of the drawing.
import type { Axis, Plot } from '../api/types';
import { words } from '../words';
import { extent, valueAt } from './plot';

export interface Along {
  key: string;
  name: string;
  axis: Axis;
  range: readonly [number, number]; // of the colours, SI
  beyond: boolean; // gate or neck lie above the range
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
          const whole = extent([y]);
          if (!whole || s.points) return [];
          // Gate and neck may lie far above the rest: the colours are for the body.
          const [lo, hi] = whole;
          const most = lo + 4 * (y.toSorted((a, b) => a - b)[Math.floor(y.length / 2)]! - lo);
          const range: [number, number] = most > lo && most < hi ? [lo, most] : [lo, hi];
          const own = (plot.series ?? []).length > 1 ? `: ${s.name}` : '';
          return [
            {
              key: `${plot.key} ${i}`,
              name: `${plot.title}${own}`,
              axis: plot.y,
              range,
              beyond: range[1] < hi,
              at: (at: number) => valueAt(x, y, Math.min(x.at(-1) ?? 0, Math.max(x[0] ?? 0, at))),
              stale,
            },
          ];
        }),
  );
}

// What is looked at along the wall at each stop of the life, by key, the better one first; the other stops
// look at the thickness.
const wanted: Record<string, { name: keyof typeof words.sheet.wantedField; keys: readonly string[] }> = {
  preform: { name: 'stretch', keys: ['blow.stretch 0', 'stretch.arc 0'] },
  heat: { name: 'temperature', keys: ['blow.temperature 0'] },
  fill: { name: 'stress', keys: ['strength.stress 0'] },
  shelf: { name: 'barrier', keys: ['shelf.barrier 0'] },
  handling: { name: 'margin', keys: ['strength.margin 0', 'wall.margin 0'] },
};

/** The field of a stop of the life; '' is the thickness. Missing names the one that is not there yet. */
export function fieldOf(stop: string, fields: readonly Along[]): { key: string; missing: string } {
  const want = wanted[stop];
  if (!want) return { key: '', missing: '' };
  const key = want.keys.find((k) => fields.some((f) => f.key === k)) ?? '';
  return { key, missing: key === '' ? words.sheet.wantedField[want.name] : '' };
}
