// Fields along the wall of the bottle, for the colour of the drawing.
import type { Absent, Axis, Plot } from '../api/types';
import { words } from '../words';
import { extent, valueAt } from './plot';

export interface Along {
  key: string;
  name: string;
  line: string; // its curve, where the trace has several
  axis: Axis;
  range: readonly [number, number]; // of the colours, SI
  beyond: boolean; // gate or neck lie above the range
  most: number; // SI, there
  at: (s: number) => number | null; // SI, at an arc from the gate, m
  stale: boolean;
}

/**
 * Every curve of the traces that runs along the arc from the gate. The wall itself is none of them: it is the
 * thickness, which has one name and one scale. Where the stretch of a blown wall is there and not older, that
 * of the preview is left out.
 */
export function along(traces: readonly { plot: Plot; stale: boolean }[]): Along[] {
  const blown = traces.some((t) => t.plot.key === 'blow.stretch' && !t.stale);
  return traces.flatMap(({ plot, stale }) =>
    plot.x.label !== 'arc from the gate' || plot.key === 'wall.arc' || (blown && plot.key === 'stretch.arc')
      ? []
      : (plot.series ?? []).flatMap((s, i) => {
          const [x, y] = [s.x ?? [], s.y ?? []];
          const whole = extent([y]);
          if (!whole || s.points) return [];
          // Gate and neck may lie far above the rest: the colours are for the body.
          const [lo, hi] = whole;
          const most = lo + 4 * (y.toSorted((a, b) => a - b)[Math.floor(y.length / 2)]! - lo);
          const range: [number, number] = most > lo && most < hi ? [lo, most] : [lo, hi];
          const line = (plot.series ?? []).length > 1 ? s.name : '';
          return [
            {
              key: `${plot.key} ${i}`,
              name: line === '' ? plot.title : `${plot.title}: ${line}`,
              line,
              axis: plot.y,
              range,
              beyond: range[1] < hi,
              most: hi,
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
  heat: { name: 'temperature', keys: ['reheat.bottle 0'] },
  fill: { name: 'stress', keys: ['strength.stress 0'] },
  shelf: { name: 'barrier', keys: ['shelf.barrier 0'] },
  handling: { name: 'margin', keys: ['strength.margin 0', 'wall.margin 0'] },
};

/**
 * The field of a stop of the life; '' is the thickness. Missing says why the stop has not its own: it comes
 * with the full run, or the reason why none does.
 */
export function fieldOf(
  stop: string,
  fields: readonly Along[],
  absent: readonly Absent[],
): { key: string; missing: string } {
  const want = wanted[stop];
  if (!want) return { key: '', missing: '' };
  const key = want.keys.find((k) => fields.some((f) => f.key === k)) ?? '';
  if (key !== '') return { key, missing: '' };
  const name = words.sheet.wantedField[want.name];
  const of = want.keys.flatMap((k) => absent.find((a) => `${a.plot} 0` === k) ?? []);
  const why = of.find((a) => a.why)?.why ?? '';
  if (of.some((a) => a.full)) return { key, missing: words.sheet.fieldLater(name) };
  return { key, missing: why === '' ? '' : words.sheet.fieldNone(name, why) };
}
