// Numbers behind the traces: axes, lines, readings, tables.
import type { Axis, FieldMap, Plot, Series } from '../api/types';
import { significant } from '../unit/table';

export type Range = readonly [lo: number, hi: number];

/** Round steps that cover a range of either sign: about n of them. */
export function steps([lo, hi]: Range, n: number): number[] {
  const span = hi - lo;
  if (!(span > 0) || n < 1) return [lo];
  const power = 10 ** Math.floor(Math.log10(span / n));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= (span / n) * 0.999)!;
  const out: number[] = [];
  for (let i = Math.ceil(lo / step - 1e-9); i * step <= hi + span * 1e-9; i++) out.push(i * step + 0);
  return out;
}

/** A step as text, with as many decimals as the distance of the steps asks for. */
export function stepText(value: number, distance: number): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size >= 1e6 || size < 1e-4) return value.toExponential(1).replace('-', '\u2212');
  const decimals = Math.max(0, -Math.floor(Math.log10(distance) + 1e-9));
  return value.toFixed(Math.min(6, decimals)).replace('-', '\u2212');
}

/** Round places in a range with their text, about n of them. */
export function ticksOf(range: Range, n: number): { at: number; text: string }[] {
  const list = steps(range, Math.max(2, Math.floor(n)));
  return list.map((at) => ({ at, text: stepText(at, (list[1] ?? at) - (list[0] ?? 0) || 1) }));
}

/** Labels of marks along the x axis, in rows so that none lies on another; px from the left edge. */
export function labelRows<M extends { x: number; label: string }>(
  marks: readonly M[],
  width: number,
): (M & { text: number; row: number })[] {
  const ends: number[] = [];
  return marks.map((m) => {
    const wide = m.label.length * 5.6 + 8;
    const from = Math.min(Math.max(m.x - wide / 2, 2), width - wide - 2);
    let row = ends.findIndex((end) => end < from);
    if (row < 0) row = ends.length;
    ends[row] = from + wide;
    return { ...m, text: from + wide / 2, row };
  });
}

/** The unit in which an axis is read: the server says it, as it says that of the figures. */
export const unitOf = (axis: Axis): string => axis.unit ?? '';

/** The least and the greatest of all numbers; null when there is none. */
export function extent(lists: readonly (readonly number[])[]): Range | null {
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.NEGATIVE_INFINITY;
  for (const list of lists) {
    for (const v of list) {
      if (v < lo) lo = v;
      if (v > hi) hi = v;
    }
  }
  return lo <= hi ? [lo, hi] : null;
}

/** The range a value axis shows: a little room, and zero when it is near. */
export function roomy([lo, hi]: Range): Range {
  if (lo === hi) return lo === 0 ? [0, 1] : lo > 0 ? [0, lo * 1.5] : [lo * 1.5, 0];
  const pad = (hi - lo) * 0.06;
  const from = lo >= 0 && lo < 0.5 * (hi - lo) ? 0 : lo - pad;
  const to = hi <= 0 && -hi < 0.5 * (hi - lo) ? 0 : hi + pad;
  return [from, to];
}

/** The value of a curve at x by straight lines between its points; null outside. */
export function valueAt(x: readonly number[], y: readonly number[], at: number): number | null {
  const n = Math.min(x.length, y.length);
  if (n === 0) return null;
  for (let i = 0; i + 1 < n; i++) {
    const [a, b] = [x[i]!, x[i + 1]!];
    if ((at >= a && at <= b) || (at <= a && at >= b)) {
      return a === b ? y[i]! : y[i]! + ((y[i + 1]! - y[i]!) * (at - a)) / (b - a);
    }
  }
  return null;
}

/** The point of a cloud nearest to x. */
export function nearestPoint(x: readonly number[], at: number): number {
  let best = 0;
  for (let i = 1; i < x.length; i++) if (Math.abs(x[i]! - at) < Math.abs(x[best]! - at)) best = i;
  return best;
}

/** The same when it lies near enough; -1 otherwise. */
export function pointNear(x: readonly number[], at: number, within: number): number {
  const i = nearestPoint(x, at);
  return x.length > 0 && Math.abs(x[i]! - at) <= within ? i : -1;
}

/** The part of a line from its beginning to its end as an SVG path. */
export function path(x: readonly number[], y: readonly number[]): string {
  let d = '';
  for (let i = 0; i < Math.min(x.length, y.length); i++) {
    d += `${i ? 'L' : 'M'}${x[i]!.toFixed(1)} ${y[i]!.toFixed(1)}`;
  }
  return d;
}

/** A text that a spreadsheet would compute is led by an apostrophe, so that it is read as text; a number is left alone. */
const tame = (text: string) =>
  /^[=+\-@\t\r]/.test(text) && !/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? `'${text}` : text;
const quoted = (text: string) => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** Rows as comma-separated text (RFC 4180). */
export const csv = (rows: readonly (readonly string[])[]): string =>
  `${rows.map((row) => row.map((cell) => quoted(tame(cell))).join(',')).join('\r\n')}\r\n`;

/** The head of a column: a number without a unit has no brackets. */
export const headed = (name: string, unit: string) => (unit === '' ? name : `${name} [${unit}]`);

/**
 * A plot as a table in the units of the reader, each number as it is written by one who keeps all digits. Curves over the same places
 * share the first column; any other curve brings its own. Remarks stand as
 * rows of one cell above the head.
 */
export function table(
  plot: Pick<Plot, 'x' | 'y' | 'series'>,
  unit: { x: string; y: string },
  write: (axis: Axis, si: number, unit: string) => string,
  remarks: readonly string[] = [],
): string[][] {
  const list = plot.series ?? [];
  const same = (a: Series, b: Series) => a.x!.length === b.x!.length && a.x!.every((v, i) => v === b.x![i]);
  const columns: { head: string; axis: Axis; unit: string; values: readonly number[] }[] = [];
  let shared: Series | null = null;
  for (const s of list) {
    if (!shared || !same(shared, s)) {
      columns.push({ head: headed(plot.x.label, unit.x), axis: plot.x, unit: unit.x, values: s.x ?? [] });
      shared = s;
    }
    const add = (name: string, values: readonly number[]) =>
      columns.push({ head: headed(name, unit.y), axis: plot.y, unit: unit.y, values });
    add(s.name, s.y ?? []);
    if (s.lo && s.hi) {
      add(`${s.name}, low`, s.lo);
      add(`${s.name}, high`, s.hi);
    }
  }
  const length = Math.max(0, ...columns.map((c) => c.values.length));
  const rows = Array.from({ length }, (_, i) =>
    columns.map((c) => (i < c.values.length ? write(c.axis, c.values[i]!, c.unit) : '')),
  );
  return [...remarks.filter((r) => r !== '').map((r) => [r]), columns.map((c) => c.head), ...rows];
}

/** A field as a table: one row a y, one column an x; remarks above. */
export function mapTable(
  map: Pick<FieldMap, 'x' | 'y' | 'v' | 'at_x' | 'at_y' | 'value'>,
  unit: { x: string; y: string; v: string },
  write: (axis: Axis, si: number, unit: string) => string,
  remarks: readonly string[] = [],
): string[][] {
  const { x, y, v } = map;
  return [
    ...remarks.filter((r) => r !== '').map((r) => [r]),
    [
      `${headed(v.label, unit.v)}; ${headed(x.label, unit.x)} across; ${headed(y.label, unit.y)} down`,
      ...(map.at_x ?? []).map((at) => write(x, at, unit.x)),
    ],
    ...(map.value ?? []).map((row, j) => [
      write(y, map.at_y?.[j] ?? 0, unit.y),
      ...(row ?? []).map((n) => write(v, n, unit.v)),
    ]),
  ];
}

/** A value with its unit, four digits. */
export const withUnit = (value: number, unit: string) =>
  `${significant(value, 4)}${unit === '' ? '' : `\u00a0${unit}`}`;

/** The longest of some texts: digits are all as wide, so letters tell. */
export const longest = (texts: readonly string[]): string =>
  texts.reduce((a, b) => (b.length > a.length ? b : a), '');

/** A plot of a shape, as radius and height or as x and y: both axes have one scale. */
export const isShape = (p: { x: Axis; y: Axis }): boolean =>
  p.x.quantity === 'length' && p.y.quantity === 'length' && ['height', 'y'].includes(p.y.label);

/** Two ranges widened so that a unit is as long across as up; aspect is width over height in px. */
export function oneScale(x: Range, y: Range, aspect: number): [Range, Range] {
  const [dx, dy] = [x[1] - x[0], y[1] - y[0]];
  const widen = (r: Range, to: number): Range => {
    const more = (to - (r[1] - r[0])) / 2;
    return [r[0] - more, r[1] + more];
  };
  return dx > dy * aspect ? [x, widen(y, dx / aspect)] : [widen(x, dy * aspect), y];
}
