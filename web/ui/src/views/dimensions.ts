// The dimensions of the drawing: where each stands, what it says, and which
// input of the design it is.
import type { Geometry } from '../api/types';
import { points } from '../drawing/outline';
import { words } from '../words';
import { frame, type Layout } from './layout';

export interface Dim {
  id: string;
  along: 'x' | 'y';
  from: number; // px along the line
  to: number;
  at: number; // px across: where the line stands
  ext?: [number, number]; // px across: where the two extension lines begin
  text: string;
  shift?: number; // px of the text along the line
  path?: string; // of the input that it shows
  unit?: string; // of a bare number that is typed, where it is not that of the drawing
}

export interface Placed {
  x: number;
  y: number;
  turned: boolean; // written upwards
  middle: boolean; // the text stands over its point; else it begins there
  wide: number; // px
}

/** Where the text of a dimension stands. */
export function place(d: Dim): Placed {
  const [a, b] = [Math.min(d.from, d.to), Math.max(d.from, d.to)];
  const wide = d.text.length * (d.along === 'y' ? 5.2 : 6) + 6;
  if (d.along === 'y')
    return { x: d.at - 4, y: (a + b) / 2 + (d.shift ?? 0), turned: true, middle: true, wide };
  if (b - a > wide + 4) return { x: (a + b) / 2, y: d.at - 4, turned: false, middle: true, wide };
  return { x: b + (isTight(d) ? 17 : 6), y: d.at + 4, turned: false, middle: false, wide };
}

/** The arrows of a short dimension point at it from outside. */
export const isTight = (d: Dim): boolean => Math.abs(d.to - d.from) < 26;

type Length = (m: number) => string;

export function bottleDims(g: Geometry, at: Layout, length: Length, panel: number, standing: number): Dim[] {
  const b = g.bottle;
  const x = (r: number) => at.bottleAxis + r * at.scale;
  const y = (z: number) => at.base - z * at.scale;
  const widest = Math.max(...b.r, 0);
  const widestZ = b.z[b.r.indexOf(widest)] ?? 0;
  const hasFinish = b.height > b.ledge_z + 1e-6 && b.finish_od > 0;
  const topRadius = hasFinish ? b.finish_od / 2 : (b.r.at(-1) ?? 0);
  const [from, to] = b.panel ?? [0, 0];
  const out: Dim[] = [
    {
      id: 'height',
      along: 'y',
      from: y(0),
      to: y(b.height),
      at: at.bottleAxis - at.bottleRadius - 62,
      ext: [x(-(b.r[b.z.indexOf(0)] ?? 0)), x(-topRadius)],
      text: length(b.height),
      path: 'bottle.height',
    },
    {
      id: 'diameter',
      along: 'x',
      from: x(-widest),
      to: x(widest),
      at: at.base + 36,
      ext: [y(widestZ), y(widestZ)],
      text: `⌀ ${length(2 * widest)}`,
      path: 'bottle.diameter',
    },
  ];
  if (standing > 0)
    out.push({
      id: 'standing',
      along: 'x',
      from: x(-standing / 2),
      to: x(standing / 2),
      at: at.base + 16,
      ext: [at.base, at.base],
      text: `⌀ ${length(standing)}`,
      path: 'bottle.base.standing_diameter',
    });
  if (panel > 0 && Math.abs(panel - 2 * widest) > 2e-4)
    out.push({
      id: 'panel',
      along: 'x',
      from: x(-panel / 2),
      to: x(panel / 2),
      at: y(((from ?? 0) + (to ?? 0)) / 2),
      text: `⌀ ${length(panel)}`,
      path: 'bottle.panel_diameter',
    });
  if (hasFinish)
    out.push({
      id: 'bore',
      along: 'x',
      from: x(-b.bore.r),
      to: x(b.bore.r),
      at: y(b.height) - 16,
      ext: [y(b.height), y(b.height)],
      text: `⌀ ${length(2 * b.bore.r)} ${words.sheet.bore}`,
      path: 'finish.bore',
    });
  return out;
}

/** The masses of the sections, between the planes. */
export function sectionDims(
  zones: { name: string; from: number; to: number; mass: string }[],
  g: Geometry,
  at: Layout,
): Dim[] {
  const y = (z: number) => at.base - z * at.scale;
  const dims = zones.map((zone): Dim => ({
    id: `section-${zone.name}`,
    along: 'y',
    from: y(zone.from),
    to: y(Math.min(zone.to, g.bottle.height)),
    at: at.bottleAxis - at.bottleRadius - 26,
    text: `${zone.name} ${zone.mass}`,
  }));
  // Texts of low sections are pushed apart, from the middle one outwards.
  const middle = Math.floor(dims.length / 2);
  for (const step of [1, -1]) {
    for (let i = middle; dims[i] && dims[i + step]; i += step) {
      const [here, next] = [dims[i]!, dims[i + step]!];
      const [p, q] = [place(here), place(next)];
      const least = (p.wide + q.wide) / 2;
      const apart = step * (p.y - q.y);
      if (apart < least) next.shift = (next.shift ?? 0) - step * (least - apart);
    }
  }
  // None runs out of the frame at the top: those beneath make room.
  let least = frame + 4;
  for (const dim of dims.toReversed()) {
    const { y: at, wide } = place(dim);
    const out = least - (at - wide / 2);
    if (out > 0) dim.shift = (dim.shift ?? 0) + out;
    least = Math.max(at, at + out) + wide / 2;
  }
  return dims;
}

export function preformDims(
  g: Geometry,
  at: Layout,
  length: Length,
  body: number,
  thick: { text: Length; unit: string },
): Dim[] {
  const p = g.preform;
  const b = g.bottle;
  const x = (r: number) => at.preformAxis + r * at.scale;
  const y = (z: number) => at.base - z * at.scale;
  const face = (radius: number[] | null) =>
    points(
      radius ?? [],
      (p.z ?? []).map((z) => b.ledge_z - z),
    ).toReversed(); // from the gate up
  const [outer, inner] = [face(p.ro), face(p.ri)];
  const foot = outer[0]?.z ?? 0;
  const widest = Math.max(...(p.ro ?? []), 0);
  const finish = b.finish_od / 2;
  const left = at.preformAxis - Math.max(widest, finish) * at.scale;
  const at40 = (share: number) => outer.findIndex((q) => q.z > foot + share * (b.ledge_z - foot));
  const out: Dim[] = [
    {
      id: 'preform-length',
      along: 'y',
      from: y(foot),
      to: y(b.ledge_z),
      at: left - 42,
      ext: [x(0), x(-finish)],
      text: length(b.ledge_z - foot),
    },
    {
      id: 'preform-body',
      along: 'y',
      from: y(b.ledge_z - body),
      to: y(b.ledge_z),
      at: left - 18,
      ext: [x(-widest), x(-finish)],
      text: length(body),
      path: 'preform.body_length',
    },
    {
      id: 'preform-outside',
      along: 'x',
      from: x(-widest),
      to: x(widest),
      at: y(foot) + 30,
      ext: [y(foot + widest), y(foot + widest)],
      text: `⌀ ${length(2 * widest)}`,
    },
  ];
  const [wall, core] = [at40(0.55), at40(0.3)];
  if (outer[wall] && inner[wall])
    out.push({
      id: 'preform-wall',
      along: 'x',
      from: x(inner[wall].r),
      to: x(outer[wall].r),
      at: y(outer[wall].z),
      text: `${words.sheet.wallLetter} ${thick.text(outer[wall].r - inner[wall].r)}`,
      path: 'preform.wall',
      unit: thick.unit,
    });
  if (outer[core] && inner[core])
    out.push({
      id: 'preform-core',
      along: 'x',
      from: x(-inner[core].r),
      to: x(inner[core].r),
      at: y(outer[core].z),
      text: `⌀ ${length(2 * inner[core].r)}`,
      path: 'preform.inner_diameter',
    });
  return out;
}
